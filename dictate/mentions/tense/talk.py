"""The words of a narration, with the searches in them that all rules of this folder share."""

from __future__ import annotations

from abc import ABC, abstractmethod
from functools import cached_property

from dictate.mentions.patterns import Words, forms_of_word
from dictate.mentions.tense.vocabulary import COMPOUND, OURS, Status, beginning, ending, flat

PASTS_OF_A_REPORT = 2
"""A narration with so many past forms reports; it is no list of instructions."""


class Talk(ABC):
    """One narration; places are word indices, ends exclusive unless said otherwise."""

    def __init__(self, words: Words) -> None:
        self.w = words
        self.words = words.words
        self.forms = forms_of_word()
        self.frames: dict[int, int | None] = {}
        """By sentence, the word behind the plan that it opens with (see `plans.frame_of`)."""
        self._clauses: dict[int, tuple[int, int]] = {}
        self.plan_ends: dict[int, int] = {}
        """By the word behind an announced plan, where it ends (see `plan_ends.end_of_plan`)."""
        self.not_headings: set[int] = set()
        """Those of them that head no list below: "I'm back Thursday." says nothing of what comes then."""
        self.listed: set[int] = set()
        """Sentences of a list below a plan that was announced in a sentence of its own."""
        self.undone: set[int] = set()
        """Sentences of which a heading says that nothing in them was done ("Not done: ...")."""
        self.headed: dict[int, Status] = {}
        """Sentences below a heading that is a sentence of its own, with what it says of them."""

    @abstractmethod
    def verb(self, i: int) -> Status | None:
        """Return what became of the work that the verb at word i names.

        A rule asks this for another verb of the same sentence: "braze and charge it" hang on one word.
        """

    def sentence(self, i: int) -> tuple[int, int]:
        """Return the sentence of word i."""
        return self.w.sentences[self.w.sentence_of[i]]

    def ends_with(self, i: int, *path: str, start: int = 0) -> int:
        """Return how many words of the longest phrase of a list end at word i (inclusive), or 0."""
        words = self.words
        for phrase in ending(*path).get(words[i], ()) if i >= 0 else ():
            first = i - len(phrase) + 1
            if first >= start and words[first : i + 1] == phrase:
                return len(phrase)
        return 0

    def begins_with(self, i: int, *path: str, end: int | None = None) -> int:
        """Return how many words of the longest phrase of a list begin at word i, or 0."""
        words = self.words
        for phrase in beginning(*path).get(words[i], ()) if i < len(words) else ():
            last = i + len(phrase)
            if (end is None or last <= end) and words[i:last] == phrase:
                return len(phrase)
        return 0

    def has(self, start: int, end: int, *path: str) -> int | None:
        """Return the first word in [start, end) at which a phrase of the list begins and fits, or None."""
        begun, words = beginning(*path), self.words
        for i, word in enumerate(words[start:end], start):
            if word not in begun:
                continue
            for phrase in begun[word]:
                last = i + len(phrase)
                if last <= end and words[i:last] == phrase:
                    return i
        return None

    def skip_back(self, i: int, start: int) -> int:
        """Return the nearest word at or before i that is no adverb; start - 1 when there is none."""
        while i >= start and self.words[i] in flat("adverbs") and self.words[i] != "never":
            i -= 1
        return i

    def before(self, i: int, start: int) -> int:
        """Return the word that governs the verb at i.

        Adverbs and the first half of "pressure tested" passed over.
        """
        g = self.skip_back(i - 1, start)
        if g == i - 1 and g >= start and self.words[g] in COMPOUND:
            g = self.skip_back(g - 1, start)
        return g

    def kind(self, i: int) -> str | None:
        """Return the form that word i is of a verb, or None."""
        form = self.forms.get(self.words[i]) if i < len(self.words) else None
        return form.kind if form else None

    def clause_start(self, i: int) -> int:
        """Return where the clause of word i begins: after the last strong break before it."""
        return self._clause(i)[0]

    def clause_end(self, i: int) -> int:
        """Return where the clause of word i ends: before the next strong break after it."""
        return self._clause(i)[1]

    def _clause(self, i: int) -> tuple[int, int]:
        """Return the clause of word i, looked for once: rules ask for it over and over."""
        clause = self._clauses.get(i)
        if clause is None:
            clause = self._clauses[i] = self._clause_start(i), self._clause_end(i)
        return clause

    def _clause_start(self, i: int) -> int:
        start, _ = self.sentence(i)
        for j in range(i - 1, start - 1, -1):
            word = self.words[j]
            if word in (";", ":", "but", "because", "cause", "though", "although", "however") or (
                word == "so" and self.words[j + 1] not in ("that", "far", "much")
            ):
                return j + 1
            if word in OURS and j > start:
                before = self.words[j - 1]
                if before in (",", "and", "then"):
                    return j
                if before in flat("lists", "whenever") or before in flat("lists", "condition"):
                    return j - 1
                if before not in ("that", "what", "where", "which", "how", "than", "as", "so", "all"):
                    return j
        return start

    def _clause_end(self, i: int) -> int:
        _, end = self.sentence(i)
        for j in range(i + 1, end):
            word = self.words[j]
            if word in (";", "but", "because", "though", "although", "however") or (
                word == "so" and j + 1 < end and self.words[j + 1] not in ("that", "far", "much")
            ):
                return j
            if word in OURS and self.words[j - 1] in (",", "and", "then"):
                return j - 1
        return end

    @cached_property
    def tells_in_the_past(self) -> bool:
        """Tell whether heard speech has so many past forms that it is a report."""
        heard = any(t.probability is not None for t in self.w.narration.tokens)
        return heard and sum(self.kind(k) == "past" for k in range(len(self.words))) >= PASTS_OF_A_REPORT
