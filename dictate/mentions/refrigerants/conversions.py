"""A machine that was changed to another refrigerant: which of those named it ran on before.

    of_before(narration, names) -> {start of a name}, of the ones that are in the machine no longer
    in_doubt(narration, names) -> whether a change sounds through of which neither can be told
    changed_today(narration, names) -> what it was changed to, where that may be work of this visit

    "It was a 404A plant until the conversion, the sticker now reads 448A."      404A was before
    "She was born on R-22 and somebody changed her to 438A ten years back."      R-22 was before
    "Converted it to 407C. Recovered four pounds, ..."                           today: both are moved

Where the change is the work of today nothing is left out: the old gas comes out and the new one goes in, and
an amount without a name is asked about.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from functools import cache

from dictate.mentions.narration import Narration
from dictate.mentions.refrigerants.named import RefrigerantName
from dictate.vocabulary.load import table

_NEAR = 2
"""Sentences between the one of before and the one that tells of the change."""
_REACH = 9
"""Words between a verb of the change and the name that it leads to."""
_LEAD = 7
"""Words between "plate" and the refrigerant that stands on it."""


def of_before(narration: Narration, names: Sequence[RefrigerantName]) -> frozenset[int]:
    """Return the first tokens of the names of what the machine ran on before; computed once a narration."""
    done: frozenset[int] | None = narration.found.get("refrigerants of before")
    if done is None:
        told = _told(narration, names)
        done = narration.found["refrigerants of before"] = frozenset(
            n.start for n in names if told.replaced(n)
        )
    return done


def changed_today(narration: Narration, names: Sequence[RefrigerantName]) -> RefrigerantName | None:
    """Return what the machine was changed to where no word says that this was at another time."""
    if len({n.name for n in names}) < 2 or of_before(narration, names):
        return None
    told = _told(narration, names)
    return next((n for n in names if told.changed_to(n) and not told.long_done(n)), None)


def in_doubt(narration: Narration, names: Sequence[RefrigerantName]) -> bool:
    """Tell whether a change of gas sounds through and nothing above tells which one is in the machine."""
    if len({n.name for n in names}) < 2 or of_before(narration, names) or changed_today(narration, names):
        return False
    told = _told(narration, names)
    return any(told.hints(n) for n in names)


def _told(narration: Narration, names: Sequence[RefrigerantName]) -> _Told:
    """Return what is said around the names; looked at once for the same ones, for every amount asks."""
    last: _Told | None = narration.found.get("told of changes of gas")
    if last is None or last.names != list(names):
        last = narration.found["told of changes of gas"] = _Told(narration, names)
    return last


class _Told:
    """What is said around each name of a refrigerant."""

    def __init__(self, narration: Narration, names: Sequence[RefrigerantName]) -> None:
        self.words = narration.lowers
        self.names = list(names)
        self.sentences = narration.sentences
        self._ends = [end for _, end in self.sentences]
        self.begin = {n.start: self._begin_of(n.start) for n in names}
        """Where each name begins with its "R.", behind which no sentence ends."""
        self.sentence = {n.start: self._sentence_of(self.begin[n.start]) for n in names}

    def replaced(self, name: RefrigerantName) -> bool:
        """Tell whether another refrigerant is told to have come in its place."""
        others = [n for n in self.names if n.name != name.name and self._near(name, n)]
        if not others:
            return False
        if self._was(name):
            return True
        for other in others:
            if other.start < name.start:
                continue
            if self.changed_to(other) and self.long_done(other):
                return True
            if self._on_papers(name) and self._is_now(other):
                return True
        return False

    def changed_to(self, name: RefrigerantName) -> bool:
        """Tell whether a verb of the change leads to it: "swapped to R-452A", "changed her over to 438A"."""
        at = self.begin[name.start]
        lead = _longest_before(self.words, at, "to")
        if not lead:
            return False
        said = self.words[max(self._first(name), at - lead - _REACH) : at - lead]
        return not _words("changed").isdisjoint(said) and _words("of_others").isdisjoint(said)

    def long_done(self, name: RefrigerantName) -> bool:
        """Tell whether the sentence of a name says that the change was made at another time, or by others."""
        said = self.words[self._first(name) : self._last(name)]
        years = any(w.isdigit() and len(w) == 4 and w[:2] in ("19", "20") for w in said)
        return years or not _words("long_done").isdisjoint(said)

    def hints(self, name: RefrigerantName) -> bool:
        """Tell whether its sentence speaks of a change, of this machine as far as is said."""
        said = self.words[self._first(name) : self._last(name)]
        return not _words("hints").isdisjoint(said) and _words("of_others").isdisjoint(said)

    def _was(self, name: RefrigerantName) -> bool:
        """Tell whether the words around it say by themselves that it was there before."""
        at = self.begin[name.start]
        if _longest_before(self.words, at, "before"):
            return True
        behind = tuple(self.words[name.end : name.end + 8])
        if any(behind[k : k + len(p)] == p for p in _phrases("behind") for k in range(3)):
            return True
        lead = _longest_before(self.words, at, "from")
        said = self.words[max(self._first(name), at - lead - _REACH) : at - lead] if lead else ()
        return not _words("changed").isdisjoint(said) and self.long_done(name)

    def _on_papers(self, name: RefrigerantName) -> bool:
        first = max(self._first(name), name.start - _LEAD)
        return not _words("papers").isdisjoint(self.words[first : name.start])

    def _is_now(self, name: RefrigerantName) -> bool:
        """Tell whether it is said to be in the machine now, or to have been changed to."""
        clause = self.words[max(self._first(name), name.start - _REACH) : min(self._last(name), name.end + 5)]
        text = f" {' '.join(clause)} "
        return any(f" {' '.join(p)} " in text for p in _phrases("now")) or self.changed_to(name)

    def _near(self, one: RefrigerantName, other: RefrigerantName) -> bool:
        return abs(self.sentence[one.start] - self.sentence[other.start]) <= _NEAR

    def _first(self, name: RefrigerantName) -> int:
        return self.sentences[self.sentence[name.start]][0]

    def _last(self, name: RefrigerantName) -> int:
        return self.sentences[self._sentence_of(name.start)][1]

    def _begin_of(self, start: int) -> int:
        k = start - (self.words[start - 1 : start] == ["."])
        return k - 1 if k and self.words[k - 1] in ("r", "our") else start

    def _sentence_of(self, token: int) -> int:
        return min(bisect_right(self._ends, token), len(self._ends) - 1)


def _longest_before(words: Sequence[str], at: int, name: str) -> int:
    """Return how many words the longest phrase of a list has that ends right in front of a token, or 0."""
    phrases = _by_last_word(name).get(words[at - 1], ()) if at else ()
    return max((len(p) for p in phrases if tuple(words[max(0, at - len(p)) : at]) == p), default=0)


@cache
def _by_last_word(name: str) -> dict[str, list[tuple[str, ...]]]:
    out: dict[str, list[tuple[str, ...]]] = {}
    for phrase in _phrases(name):
        out.setdefault(phrase[-1], []).append(phrase)
    return out


@cache
def _phrases(name: str) -> tuple[tuple[str, ...], ...]:
    return tuple(tuple(said.split()) for said in table("refrigerants")["conversions"][name])


@cache
def _words(name: str) -> frozenset[str]:
    return frozenset(table("refrigerants")["conversions"][name])


__all__ = ["changed_today", "in_doubt", "of_before"]
