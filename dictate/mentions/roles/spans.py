"""Stretches of words in which every value has one role, whatever stands next to it.

    "the chart in the lid for ninety degree air has thirteen to sixteen"    target, the ninety too
    "the installer wrote 640 and 5.8 amps inside the panel"                 earlier
    "Planned for Thursday. Test at thirty-two bar, evacuate to 500"         expected

A cue of `roles.py` stands next to its value; here the source is named first and what it says comes later,
often with conditions between. A stretch ends where the speaker comes back to what he found himself.
The words are in cues.toml, [span.*].
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import cache

from dictate.mentions.narration import Narration, lowers
from dictate.mentions.patterns import AMBIGUOUS, forms_of_word
from dictate.mentions.roles.listed_ratings import listed
from dictate.mentions.roles.reported import reported
from dictate.mentions.roles.supposed import supposed
from dictate.mentions.roles.within_bands import within_bands
from dictate.vocabulary.load import table, word_set

_ENDS = frozenset({".", "?", "!"})
_YEAR = re.compile(r"(?:19[89]|20[0-4])\d")
_WISHED = 14
"""Words from "for a ten degree room" to the wish that is told for it."""
_GAP = 11
"""Words between a sheet and its verb: "the chart | inside the door for eighty degree water | gives"."""


@dataclass(frozen=True, slots=True)
class Span:
    """A role over the tokens [start, end); `only` names the quantities that it holds for (empty: all).

    `sure` is true where the words can mean nothing else.
    """

    start: int
    end: int
    role: str
    only: frozenset[str] = frozenset()
    sure: bool = False


@cache
def _words(source: str, name: str) -> frozenset[str]:
    return frozenset(table("cues")["span"][source].get(name, ()))


@cache
def _phrases(source: str, name: str) -> dict[str, tuple[tuple[str, ...], ...]]:
    out: dict[str, list[tuple[str, ...]]] = {}
    for said in table("cues")["span"][source][name]:
        phrase = tuple(lowers(said))
        out.setdefault(phrase[0], []).append(phrase)
    return {word: tuple(sorted(found, key=len, reverse=True)) for word, found in out.items()}


def find_spans(narration: Narration) -> list[Span]:
    """Return the stretches of one role, in order; found once per narration."""
    done: list[Span] | None = narration.found.get("role_spans")
    if done is None:
        done = narration.found["role_spans"] = _Finder(narration).run()
    return done


_PAUSES = frozenset({",", ";", ".", "but"})


class _Finder:
    def __init__(self, narration: Narration) -> None:
        from dictate.mentions.spoken_numbers import find_numbers

        self.narration = narration
        self.words = narration.lowers
        self.tokens = narration.tokens
        self.segments = narration.segments
        self.sentences = narration.sentences
        self.values = [n for n in find_numbers(narration) if not n.pronoun and n.form != "ordinal"]
        self.numbers = {n.start for n in self.values}

    def run(self) -> list[Span]:
        out: list[Span] = []
        nouns = _words("sheet", "nouns") | _words("plates", "nouns") | _words("records", "nouns")
        nouns |= _words("listed", "plates")
        verbs, good = _words("wrote", "verbs"), _words("good", "words")
        planned, segment = False, -1
        out += [Span(*found, sure=True) for found in within_bands(self.words, self.values)]
        for first, last in self.sentences:
            if self.tokens[first].segment != segment:
                segment = self.tokens[first].segment
                planned = planned and self.segments[segment].start_s is not None  # a typed line ends a plan
            for i in range(first, last):
                word = self.words[i]
                if word in nouns:
                    out += self._sheet(i, first, last)
                elif word in verbs:
                    out += self._wrote(i, first, last)
                elif word in good:
                    out += self._good_one(i, first, last)
                elif word == "percent" or word == "%":
                    out += self._reckoned(i, first, last)
                elif word in {"should", "ought"}:
                    out += self._wished_at(i, first)
                elif word == "for" and i + 2 in self.numbers:
                    out += self._for_a_kind(i, last)
            out += [Span(*found) for found in listed(self.narration, first, last)]
            out += [Span(*found) for found in reported(self.words, first, last, self.numbers)]
            out += [Span(*found) for found in supposed(self.words, first, last)]
            plan, planned = self._plan(first, last, planned)
            out += plan
        return out

    # -- charts, cards and plates

    def _sheet(self, i: int, first: int, last: int) -> list[Span]:
        """Return what a sheet says: "the book for this model at ninety ambient lists head 260"."""
        word = self.words[i]
        before = self.words[i - 1] if i > first else ""
        if before in _words("sheet", "compounds"):
            return []
        if word in _words("listed", "plates") and word not in _words("plates", "nouns"):
            return self._printed(i, last)
        if word in _words("plates", "nouns"):
            return self._gives(i, last, "rated", "plates")
        if word in _words("records", "nouns"):
            if before in _words("records", "whose") and self.words[i - 2] in _words("sheet", "by"):
                told = self._until(i, last, "earlier", True) if i - first <= 3 else []
                return [replace(span, sure=True) for span in told]  # "per his slip, ..."
            return self._gives(i, last, "earlier", "records")
        front = self._condition(i, first, last)
        if front is not None:
            return [front]
        by = i - 1 if before in _words("sheet", "determiners") else i
        if by > first and self.words[by - 1] in _words("sheet", "by") and by - 1 - first <= 2:
            return self._until(by, last, "target", True)
        return self._gives(i, last, "target", "sheet")

    def _printed(self, i: int, last: int) -> list[Span]:
        """Return what one plate says up to a pause: "the sticker inside the door says 14 at 70 air"."""
        for span in self._gives(i, last, "rated", "sheet"):
            end = span.start
            while end < span.end and self.words[end] not in _PAUSES:
                if self.words[end] == "and" and self.words[end + 1] in {"the", "it", "i", "now", "my"}:
                    break
                end += 1
            if {"is", "'s", "was"}.isdisjoint(self.words[span.start : end]):
                return [Span(span.start, end, "rated")]
        return []

    def _gives(self, i: int, last: int, role: str, source: str) -> list[Span]:
        """Return the span of a sheet whose verb follows behind the words that say where it is."""
        gap_from = i + 1
        if gap_from >= last:
            return []
        plural = source == "plates"
        if self.words[gap_from] not in _words("sheet", "prepositions") and not (
            plural and self.words[gap_from] in _words(source, "verbs")
        ):
            return []
        for k in range(gap_from, min(last, gap_from + _GAP)):
            word = self.words[k]
            if word in _words(source, "verbs") or (
                word in _words(source, "loose_verbs") and "for" in self.words[gap_from:k]
            ):
                return self._until(k, last, role, False, gap_from)
            if word in {",", ";", "but", "and", "is", "was", "'s"}:
                return []
        return []

    def _condition(self, i: int, first: int, last: int) -> Span | None:
        """Return what a sheet is asked for in front of it: "for 404 at 20 degrees the chart gives 56"."""
        if i + 1 >= last or self.words[i + 1] not in _words("sheet", "verbs") | _words(
            "sheet", "loose_verbs"
        ):
            return None
        if self.words[first] not in _words("sheet", "asked") or i - first > 12:
            return None
        between = self.words[first : i - 1]
        if {";", "but", "i"} & set(between) or _words("sheet", "shown") & set(between):
            return None  # "at 25 degrees mine shows 8,200, the book says 10,000": that was read
        if not any(n in self.numbers for n in range(first, i)):
            return None
        return Span(first, i, "target")

    def _good_one(self, i: int, first: int, last: int) -> list[Span]:
        """Return what a sound one would have: "a new heater for this one is 22 ohms, mine's 31"."""
        word = self.words[i]
        if self.words[i - 1 : i] not in (["a"], ["an"], ["any"]):
            return []
        opens = i - first <= 3 or self.words[i - 2] in {",", ";", "and", "but"}
        verb = next(
            (k for k in range(i + 1, min(last, i + 11)) if self.words[k] in _words("good", "verbs")), None
        )
        if verb is None or not opens or {",", ";", "but"} & set(self.words[i:verb]):
            return []
        if _words("good", "going") & set(self.words[verb + 1 : verb + 3]):
            return []  # "a new one is showing 22 ohms" was put on the meter
        end = next((k for k in range(verb, last) if self.words[k] in {",", ";", "but", "and"}), last)
        if word in _words("good", "sound") and self.words[i + 1] in {"one", "ones"}:
            return [Span(i, end, "target")]  # "a good one off the truck is about fifty ohms"
        if end == last or not _words("good", "mine") & set(self.words[end : min(last, end + 5)]):
            return []
        return [Span(i, end, "target")]

    def _until(self, k: int, last: int, role: str, by: bool, start: int | None = None) -> list[Span]:
        """Return the span from a source to where the speaker comes back to what he found."""
        begin = start if start is not None else k
        counted = 0
        for j in range(k + 1, last):
            word = self.words[j]
            if j in self.numbers:
                counted += 1
            if word in _words("sheet", "stops") and not (
                word == "i" and self.words[j + 1] in {"think", "believe"}
            ):
                return [Span(begin, j, role)] if counted else []
            if not counted or word not in {",", "and", "-", ":"}:
                continue
            ahead = self.words[j + 1 : min(last, j + 6)]
            set_so = role == "earlier" and word in {",", "and"} and {"set", "supposed", "should"} & set(ahead)
            if set_so or (ahead and ahead[0] in _words("sheet", "own")):
                return [Span(begin, j, role)]
            if not by and _words("sheet", "reads") & set(ahead):
                return [Span(begin, j, role)]
        return [Span(begin, last, role)] if counted else []

    # -- what somebody wrote

    def _wrote(self, i: int, first: int, last: int) -> list[Span]:
        """Return what somebody else wrote: "they have noted 85 meg", "pencilled on the door is 118"."""
        front = self.words[first:i]
        if front[-2:] == ["before", "me"]:
            front = front[:-2]  # "the outfit before me wrote on the lid"
        if {"i", "i've", "i'd", "we", "we've", "me", "my"} & set(front[-4:]) or "not" in front[-2:]:
            return []
        who = bool(_words("wrote", "people") & set(front[-9:]))
        place = self.words[i + 1 : i + 2] and self.words[i + 1] in _words("wrote", "places_lead")
        if (
            place
            and not who
            and self.words[i - 1] in {"is", "'s", "was", "are"}
            and self.words[i + 3 : i + 4] == [","]
        ):
            return []  # "twelve hundred watt is written on it, has 230 volts": that was the maker
        if (
            place
            and not who
            and self.words[i] == "written"
            and self.words[i + 2 : i + 3] in (["it"], ["its"])
        ):
            return self._until(
                i, last, "rated", False
            )  # "capacitor, written on it 4 microfarad": the maker too
        if not who and not place and not self._year(max(first, i - 5), i):
            return []
        return self._until(i, last, "earlier", False)

    def _year(self, a: int, b: int) -> bool:
        return any(_YEAR.fullmatch(w) for w in self.words[a:b])

    def _wished_at(self, i: int, first: int) -> list[Span]:
        """Return what a wish is told for: "at about thirty-two it should be around 33,000 ohms"."""
        if self.words[i - 1] not in _words("sheet", "pronouns") or i - first < 3:
            return []
        if self.words[i + 1 : i + 2] in (["have"], ["'ve"]):
            return []  # "at 15 degrees in a glass it should have been 7.9 K" was tried
        k = i - 2
        while k > first and self.words[k] in {"degrees", "degree", "f", "c"}:
            k -= 1
        while k > first and k not in self.numbers and i - k < 6 and self.words[k] not in _PAUSES:
            k -= 1
        at = k - 1 - (self.words[k - 1] in {"about", "around"})
        if k not in self.numbers or at < first or self.words[at] not in {"at", "for"}:
            return []
        if at > first and self.words[at - 1] not in _PAUSES | {"and", "so"}:
            return []  # "the box is at 38 they should ..."
        return [Span(k, k + 1, "target", frozenset({"temperature", "pressure"}))]

    def _for_a_kind(self, i: int, last: int) -> list[Span]:
        """Return what a wish is told for: "for a ten degree room I'd expect three bar".

        A level that only names a kind of room, day or water is no reading; a wish behind it says so.
        """
        if self.words[i + 1] not in {"a", "an", "any"}:
            return []
        end = min(last, i + _WISHED)
        wish = next((k for k in range(i + 3, end) if self.words[k] in _words("kind", "wishes")), None)
        if wish is None or {";", "but", ".", "and"} & set(self.words[i + 3 : wish]):
            return []
        if not _words("kind", "things") & set(self.words[i + 3 : i + 7]):
            return []
        return [Span(i + 2, i + 3, "target", frozenset({"temperature"}), True)]

    # -- what is worked out

    def _reckoned(self, i: int, first: int, last: int) -> list[Span]:
        """Return a limit worked out: "40 minus 6 percent is 37.6", "ten percent under 120 is 108"."""
        back = self.words[max(first, i - 5) : i]
        ahead = self.words[i + 1 : min(last, i + 8)]
        signed = bool(_words("reckoned", "signs") & set(back))
        of = bool(ahead) and ahead[0] in _words("reckoned", "of")
        if not (signed or of):
            return []
        spans: list[Span] = []
        for k in range(i + 1, min(last, i + 9)):
            if self.words[k] in _words("reckoned", "is") and (
                signed or any(n in self.numbers for n in range(i + 1, k))
            ):
                number = next((n for n in range(k + 1, min(last, k + 4)) if n in self.numbers), None)
                if number is not None and not {",", "but"} & set(self.words[k:number]):
                    spans.append(Span(k, number + 1, "target"))
                break
            if self.words[k] in {";", "but"}:
                break
        return spans

    # -- work to come

    def _plan(self, first: int, last: int, planned: bool) -> tuple[list[Span], bool]:
        """Return the spans of work to come in a sentence, and whether the next one may go on with it."""
        start, ordered = None, False
        k = first
        while k < last and self.words[k] in _words("plan", "fillers"):
            k += 1
        opens = self._opening(first, last)
        if opens is not None:
            start = opens
        elif planned and k < last and (self._plain(k) or self.words[first] == "then"):
            start, ordered = k, True
        if start is None:
            return [], False
        end = last
        for j in range(start, last):
            word = self.words[j]
            past = forms_of_word().get(word)
            if word in _words("plan", "stops") or (
                past is not None
                and past.kind == "past"
                and word not in AMBIGUOUS
                and word not in _words("plan", "participles")
                and not (ordered and self.words[j - 1] not in word_set("before_a_doing"))
                and not (ordered and word in word_set("orders_like_a_past"))
            ):
                end = j  # but an order names what will have been done: "pull the charge, new coil brazed in"
                break
        whole = end == last
        only = _words("plan", "quantities")
        work = any(self.words[j] in _words("plan", "work") for j in range(max(first, start - 6), end))
        spans = [Span(start, end, "expected", only, ordered)] if work and end > start else []
        return spans, whole

    def _plain(self, i: int) -> bool:
        """Tell whether a word is the plain form of a verb of work, or names a test to be made."""
        form = forms_of_word().get(self.words[i])
        return (form is not None and form.kind == "base") or self.words[i] in _words("plan", "work")

    def _opening(self, first: int, last: int) -> int | None:
        """Return where the work begins of which a sentence says that it is still to be done."""
        for i in range(first, min(last, first + 9)):
            word = self.words[i]
            form = forms_of_word().get(word)
            if (
                form is not None
                and form.kind == "past"
                and word not in AMBIGUOUS
                and word not in _words("plan", "participles")
            ):
                told = word in _words("plan", "told")
                to = next((k for k in range(i + 1, min(last - 1, i + 6)) if self.words[k] == "to"), None)
                if told and to is not None and self._plain(to + 1):
                    return to + 1
                return None
            if word in {"when", "once"} and i - first <= 2 and self._to_come(i, last):
                return i + 1
            if word in _words("plan", "stops"):
                return None
            for phrase in _phrases("plan", "heads").get(word, ()):
                if tuple(self.words[i : i + len(phrase)]) == phrase:
                    return i + len(phrase)
            if word in _words("plan", "days"):
                j = i + 1
                while j < last and self.words[j] in _words("plan", "behind_day"):
                    j += 1
                if j < last and (self._plain(j) or self.words[j] in _words("plan", "doers")):
                    return j
        return None

    def _to_come(self, i: int, last: int) -> bool:
        """Tell whether "when the coil comes" speaks of a day to come."""
        return any(self.words[k] in _words("plan", "comes") for k in range(i + 1, min(last, i + 7)))


__all__ = ["Span", "find_spans"]
