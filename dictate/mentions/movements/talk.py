"""What the modules of this folder know of one narration: its words, cues, refrigerants and amounts so far."""

from __future__ import annotations

from bisect import bisect_left
from functools import cached_property
from operator import attrgetter

from dictate.mentions.movements.mass import Mass
from dictate.mentions.movements.vocabulary import matcher
from dictate.mentions.narration import Narration
from dictate.mentions.patterns import Hit, Words, words_of
from dictate.mentions.quantities import Quantity, find_quantities, mass_of
from dictate.mentions.refrigerants.named import find_refrigerants
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.mentions.tense import Scopes, scopes_of
from dictate.vocabulary.load import word_set

_start = attrgetter("start")


class Talk:
    """One narration while its amounts are judged, one after the other."""

    def __init__(self, narration: Narration) -> None:
        self.narration = narration
        self.w: Words = words_of(narration)
        self.words = self.w.words
        self.scopes: Scopes = scopes_of(self.w)
        self.names = find_refrigerants(narration)
        # "the charge" and "a weigh tank" are nouns: a plain form that nothing governs says nothing.
        self.hits = sorted(
            (
                h
                for h in (*matcher().hits(self.w), *self.named_objects())
                if (h.verb is None or self.reports(h.verb) or self.noted(h))
                and not self.billed(h)
                and not self.of_a_control(h)
            ),
            key=lambda h: (h.start, h.start - h.end),
        )
        self.masses: list[Mass] = []
        self.quantities: list[Quantity] = []
        # What was found out while the amount in hand was judged:
        self.vacuum = False  # nothing but the vacuum before it says what the amount is
        self.staged = False  # only the stage of the work says what the amount is
        self.far = False  # the work was named more than a sentence before the amount

    def hits_in(self, first: int, last: int) -> list[Hit]:
        """Return the phrases of the work that begin at the words [first, last)."""
        return self.hits[bisect_left(self.hits, first, key=_start) : bisect_left(self.hits, last, key=_start)]

    @cached_property
    def mass_spans(self) -> list[tuple[int, int]]:
        """Return where the amounts that can be a mass begin and end, once all quantities are known."""
        return [
            (self.w.word_of_token(q.start), self.w.word_of_token(q.end))
            for q in self.quantities
            if mass_of(q) is not None
        ]

    @cached_property
    def quantity_starts(self) -> list[int]:
        """Return the words at which the quantities start, once all of them are known."""
        return [self.w.word_of_token(q.start) for q in self.quantities]

    @cached_property
    def weight_ends(self) -> frozenset[int]:
        """Return the words behind the amounts that can be a mass."""
        return frozenset(self.w.word_of_token(q.end) for q in find_quantities(self.narration) if mass_of(q))

    def number_at(self, k: int) -> bool:
        """Tell whether a number stands at word k, small words aside."""
        starts = self.number_starts
        return any(j in starts for j in range(k, min(len(self.words), k + 3)))

    @cached_property
    def counted(self) -> dict[int, int]:
        """Return the words where a number without a unit starts and ends."""
        taken = {t for q in find_quantities(self.narration) for t in range(q.start, q.end)}
        return {
            self.w.word_of_token(n.start): self.w.word_of_token(n.end)
            for n in find_numbers(self.narration)
            if n.start not in taken and not n.pronoun
        }

    @cached_property
    def named(self) -> frozenset[int]:
        """Return the words at which the names of refrigerants start."""
        return frozenset(self.w.word_of_token(n.start) for n in self.names)

    def numbers_in(self, first: int, last: int) -> list[Number]:
        """Return the numbers that start at the words [first, last)."""
        places, numbers = self.placed
        return numbers[bisect_left(places, first) : bisect_left(places, last)]

    @cached_property
    def placed(self) -> tuple[list[int], list[Number]]:
        """Return the first words of all numbers, in order, and the numbers."""
        numbers = find_numbers(self.narration)
        return [self.w.word_of_token(n.start) for n in numbers], list(numbers)

    @cached_property
    def number_starts(self) -> frozenset[int]:
        """Return the words at which numbers start."""
        return frozenset(self.w.word_of_token(n.start) for n in find_numbers(self.narration))

    def in_name(self, k: int) -> bool:
        """Tell whether word k belongs to the name of a refrigerant."""
        if k >= len(self.w.words):
            return False  # the narration breaks off: "two pounds of"
        token = self.w.tokens[k]
        return any(n.start <= token < n.end for n in self.names)

    def reports(self, verb: int) -> bool:
        """Tell whether a verb tells of something done, and is no instruction."""
        return not self.scopes.bare(verb) or self.scopes.ending_lost(verb)

    def noted(self, hit: Hit) -> bool:
        """Tell whether "Charge 14 ounces." stands among the notes of work that opened the system."""
        i = hit.start
        if i and self.words[i - 1] not in (".", ",", ";", "then", "and"):
            return False
        if hit.verb != i or self.words[i] not in word_set("noted_verbs") or not self.number_at(hit.end):
            return False
        if self.words[i + 1 : i + 2] == (":",):
            return False  # "Charge: two pounds" is the head of an entry
        s0, _ = self.scopes.sentence(i)
        if set(self.words[s0:i]) & word_set("not_yet_in_the_sentence"):
            return False  # "we'll pull the charge, braze it in and weigh in the eleven pounds"
        around = self.words[max(0, i - 40) : i + 40]
        near = self.words[max(0, i - 12) : i + 14]
        return any(w in word_set("opened_system") for w in around) and not any(
            w in word_set("not_yet") for w in near
        )

    def of_a_control(self, hit: Hit) -> bool:
        """Tell whether "put ... in" is only "put the cut-in at fifteen pounds"."""
        row = self.words[hit.start : min(len(self.words), hit.end + 1)]
        return any(
            row[i] in ("cut-in", "cut-out", "cutin", "cutout")
            or (row[i] == "cut" and row[i + 1 : i + 2] in (("in",), ("out",), ("-",)))
            for i in range(1, len(row))
        )

    def billed(self, hit: Hit) -> bool:
        """Tell whether money was charged: "charged them three hours and the ferry, forty pounds"."""
        if hit.label != "charged" or not self.words[hit.start].startswith("charg"):
            return False
        payer = self.words[hit.start + 1 : hit.start + 3]
        if not set(payer[:1]) & word_set("payers") and not set(payer) & {"customer", "owner", "landlord"}:
            return False
        _, s1 = self.scopes.sentence(hit.start)
        told = self.words[hit.start : min(s1, hit.start + 9)]
        return payer[:1] not in (("her",), ("him",)) or bool(set(told) & word_set("billed_for"))

    def named_objects(self) -> list[Hit]:
        """Return hits for "pulled the four oh four, ...": a general verb whose object is a refrigerant."""
        out: list[Hit] = []
        for name in self.names:
            k = self.w.word_of_token(name.start)
            j = k - 1
            while (
                j > k - 4 and j > 0 and self.words[j] in ("the", "old", "all", "r", "remaining", "rest", "of")
            ):
                j -= 1
            if j >= 0 and self.words[j] in ("pulled", "took", "removed", "drew", "got"):
                end = self.w.word_of_token(name.end)
                out.append(Hit("recovered", j, end, j, "past", "named"))
        return out
