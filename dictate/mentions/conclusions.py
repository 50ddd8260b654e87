"""What the technician says is wrong, what was complained of, and what is recommended, in the speaker's words.

    find_conclusions(narration) -> list[Conclusion]
    find_remarks(narration) -> list[Remark]     complaint and recommendations

Texts are the sentences as said (or the part of a long one that says it); nothing is rephrased.
"""

from __future__ import annotations

from bisect import bisect_left
from functools import cache
from operator import attrgetter
from typing import Any, Literal

from dictate.mentions.narration import Narration, lowers
from dictate.mentions.patterns import NUMBER_WORDS, Words, words_of
from dictate.mentions.tense import Scopes, scopes_of
from dictate.mentions.whose.things import Thing, things_of
from dictate.record.visit import Conclusion, Remark
from dictate.vocabulary.load import table

_LONG = 26  # words; a sentence longer than this was hardly punctuated and is cut at every new thought
_REACH = 9  # words of an unpunctuated sentence that may stand on either side of the word that says it
_STARTS = frozenset({"i", "we", "i've", "we've", "i'd", "we'd", "i'll", "we'll", "i'm", "we're"})
_ACTED_ON = frozenset((
    "it", "her", "him", "them", "the", "a", "an", "my", "this", "that", "these", "those", "one",
    "everything", "in", "back", "up", "around", "right", "on",
))  # fmt: skip
"""Words behind "stuck", "plugged", "cracked" ... that make it something done and no fault."""
_DOUBLE = frozenset((
    "plugged", "stuck", "cracked", "broken", "blown", "blocked", "bent", "snapped", "burned", "burnt",
    "loosened", "frozen", "flooded", "worn", "welded", "smoked", "restricted",
))  # fmt: skip
"""Faults that are also what a technician does ("plugged it in", "stuck a new one in")."""
_CHECKING = frozenset((
    "test", "tested", "tests", "check", "checked", "verify", "verified", "prove", "proved", "proven",
    "confirm", "confirmed", "meter", "metered", "made", "make", "sure",
))  # fmt: skip
_STATED = frozenset((
    "is", "'s", "was", "were", "are", "are's", "been", "completely", "totally", "all", "just", "already",
    "looks", "looked", "reads", "found", "it's", "that's",
))  # fmt: skip
_NEEDS_SAYING = frozenset({"dead", "gone", "finished", "loose", "frozen", "noisy", "weak", "dirty"})
"""Words that say that a part has failed only behind it, or behind "is" and its like."""
_OPENABLE = (
    "heater",
    "coil",
    "winding",
    "element",
    "fuse",
    "transformer",
    "overload",
    "motor",
    "thermal cutout",
    "compressor",
)
"""Parts of which "open" says that they have failed; a door, a valve and a switch may be open."""
_LINKS = frozenset(
    lowers(p)
    for p in (
        "so the", "so it's", "so she's", "so he's", "so it has", "that means", "meaning the",
        "which tells me", "that told me", "that tells me", "i'm calling it", "that's why", "reason was",
        "reason is", "what happened was", "so that's it",
    )
)  # fmt: skip
"""Words that open a cause only where what follows calls something bad."""


@cache
def _phrases(section: str, name: str) -> tuple[tuple[str, ...], ...]:
    data: dict[str, Any] = table("conclusions")
    return tuple(sorted((tuple(lowers(p)) for p in data[section][name]), key=len, reverse=True))


@cache
def _by_first(section: str, name: str) -> dict[str, tuple[tuple[str, ...], ...]]:
    """Sort phrases by their first word: most words of a narration begin none."""
    found: dict[str, tuple[tuple[str, ...], ...]] = {}
    for phrase in _phrases(section, name):
        found[phrase[0]] = (*found.get(phrase[0], ()), phrase)
    return found


def _at(row: tuple[str, ...], i: int, section: str, name: str) -> int:
    if i >= len(row):
        return 0
    for phrase in _by_first(section, name).get(row[i], ()):
        if row[i : i + len(phrase)] == phrase:
            return len(phrase)
    return 0


def _piece(words: Words, scopes: Scopes, i: int, n: int) -> tuple[int, int]:
    """Return the clause that says what is wrong around the n words at i: no step before or behind it.

    A clause ends at a comma, "but", "so" or "and" where a doing of ours follows, and at "I" and "we". A
    sentence that was hardly punctuated is cut at numbers and at a few words' distance as well.
    """
    start, end = words.sentences[words.sentence_of[i]]
    row = words.words
    long = end - start > _LONG
    first = i
    while first > start:
        before = row[first - 1]
        if before in (";", ":", "but", "because", "since"):
            break
        if before in ("so", "and", ",", "then") and (long or _our_doing(words, scopes, start, first - 1)):
            break
        if before == "," and not any(_bad_word(row[j]) for j in range(start, first)):
            break
        if before in _STARTS or (row[first] in _STARTS and first < i):
            break
        if (
            long
            and (i - first >= _REACH or before in NUMBER_WORDS or before[:1].isdigit())
            and not _counted(row, first)
        ):
            break
        first -= 1
    while (
        first < i
        and row[first] in ("and", "so", "then", ",", "found", "that", "okay", "well", "it", "'s", "now")
        and row[first + 1] not in ("'s", "is", "was")
    ):
        first += 1
    last = i + n
    while last < end:
        word = row[last]
        if long and last == i + n and word not in _TAILS:
            break
        if word in (";", ".", "?", "!", "but", "since") or word in _STARTS:
            break
        if (
            word in ("so", "then")
            and last + 1 < end
            and row[last + 1] not in ("that", "far", "much", "bad", "badly")
        ):
            break
        if word == "," and not any(_bad_word(row[j]) for j in range(last, end)):
            break
        if word in (",", "and") and (long or _our_doing(words, scopes, last + 1, end)):
            break
        if long and (last - i - n >= _REACH or _past_of_ours(words, scopes, last)):
            break
        last += 1
    while last - 1 > i + n - 1 and row[last - 1] in ("and", ",", "so", "now", "then", "the", "which"):
        last -= 1
    return first, max(last, i + n)


_NO_CAUSE = frozenset(
    ("the", "a", "an", "it", "that", "this", "is", "was", "'s", "so", "of", "to", "and", ",", ".")
)
"""Words that tell no cause by themselves: what announced one was not gone on with."""
_TAILS = frozenset((
    "because", "from", "at", "on", "in", "to", "with", "by", "of", "and", "between", "through", "inside",
    "near", "since", "due",
))  # fmt: skip
"""Words with which a fault is told on after the word for it ("leaking at the flare")."""


def _counted(row: tuple[str, ...], first: int) -> bool:
    """Tell whether the number before word `first` tells one part from others ("fan number two")."""
    return first >= 2 and row[first - 2] in (
        "number",
        "fan",
        "circuit",
        "compressor",
        "unit",
        "leg",
        "phase",
        "evaporator",
    )


def _past_of_ours(words: Words, scopes: Scopes, i: int) -> bool:
    """Tell whether word i is the past form of a verb of the work."""
    return (
        scopes.kind(i) == "past" and words.words[i] not in _BE_WORDS and words.words[i - 1] not in _BE_WORDS
    )


_BE_WORDS = frozenset(["was", "were", "is", "'s", "are", "been", "had", "has", "have", "got", "did"])


def _our_doing(words: Words, scopes: Scopes, start: int, end: int) -> bool:
    """Tell whether [start, end) up to the next comma holds a doing of ours: "I", or a past form."""
    row = words.words
    for j in range(start, end):
        if row[j] in _STARTS:
            return True
        if row[j] in (".", ";") and j > start:
            return False
        if _past_of_ours(words, scopes, j) and not _bad_word(row[j]):
            return True
    return False


def _bad_word(word: str) -> bool:
    return word in _by_first("found", "bad")


def _text(narration: Narration, words: Words, first: int, last: int) -> tuple[str, int, int]:
    s, e = words.span(first, last)
    text = narration.heard(s, e).strip(" ,;")
    return text, s, e


def find_conclusions(narration: Narration) -> list[Conclusion]:
    """Return what is wrong, as said, each with the part that it is about."""
    words = words_of(narration)
    scopes = scopes_of(words)
    row = words.words
    things = things_of(words)
    out: list[Conclusion] = []
    seen: set[int] = set()
    for i in words.starting(_by_first("found", "bad").keys() | _by_first("found", "cause").keys()):
        if i in seen:
            continue
        n = _at(row, i, "found", "bad")
        cause = 0 if n else _at(row, i, "found", "cause")
        if not n and not cause:
            continue
        start, end = scopes.sentence(i)
        if row[end - 1] == "?" or scopes.conditional(i) or not scopes.ours(i):
            continue
        before = row[max(start, i - 4) : i]
        if n and any(" ".join(p) in " ".join(before) for p in _phrases("found", "unclear")):
            continue
        if n and any(w in p for p in _phrases("found", "not_bad") for w in before[-3:] if len(p) == 1):
            continue
        if n and not _says_bad(row, i, n, start, end, things):
            continue
        if (
            cause
            and row[i : i + cause] in _LINKS
            and not any(_at(row, j, "found", "bad") for j in range(i + cause, min(end, i + cause + 8)))
        ):
            continue
        first, last = _piece(words, scopes, i, max(n, cause))
        if cause:
            first = max(first, i - 6) if row[i] in ("leak", "because", "caused", "traced", "down") else i
            first += row[first] == "so"
            last = max(last, first + 1)
        part = _part(things, i, i + max(n, cause), first, last)
        if part is None and n:
            # "the compressor, the second one, is seized"
            part = _part(things, i, i + n, max(start, i - 6), last)
            first = min(first, part.start) if part is not None else first
        if n and part is None and not _at(row, i, "found", "alone"):
            continue
        if part is not None and end - start > _LONG and first < part.start < i:
            first = part.start
            while first - 1 >= start and row[first - 1] in ("the", "a", "one", "my", "their", "that", "old"):
                first -= 1
        if all(word in _NO_CAUSE for word in row[first:last]):
            continue
        text, s, e = _text(narration, words, first, last)
        out.append(Conclusion(text=text, component=part.name if part else None, at=narration.at(s, e)))
        seen.update(range(first, last))
    return out


def _says_bad(row: tuple[str, ...], i: int, n: int, start: int, end: int, things: list[Thing]) -> bool:
    """Tell whether the n words at i call something bad, and are no doing and no dead test."""
    word = row[i]
    after = row[i + n] if i + n < end else ""
    if (
        n == 1
        and word in _DOUBLE
        and after in _ACTED_ON
        and not (after in ("in", "on", "up", "that") and row[i - 1] in _STATED)
    ):
        return False
    if n == 1 and word == "open" and row[i - 1] == "to":
        return False  # "told to open"
    if word == "dead" and any(w in _CHECKING for w in row[max(start, i - 7) : i]):
        return False
    if n == 1 and word in _NEEDS_SAYING and i > start:
        behind = any(t.start == i + n for t in things)
        spoken = row[i - 1] in _STATED or any(t.end == i for t in things)
        if not behind and not spoken:
            return False
    if n == 1 and word == "open":
        near = [t.part or t.name for t in things if t.end <= i and i - t.end <= 4 and t.start >= start]
        near += [t.part or t.name for t in things if t.start == i + 1]
        return bool(near) and near[-1].endswith(_OPENABLE) and "solenoid valve" not in near[-1]
    return not (word == "finished" and after in ("at", "up", "around", "about", "by", "it", "the", "with"))


_start = attrgetter("start")


def _part(things: list[Thing], i: int, after: int, first: int, last: int) -> Thing | None:
    """Return the part that is said to be bad: the nearest before in the piece, else the one right behind."""
    inside = things[bisect_left(things, first, key=_start) : bisect_left(things, last, key=_start)]
    before = [t for t in inside if t.end <= i and i - t.end <= 7 and not t.modifier]
    behind = [t for t in inside if after <= t.start <= after + 2 and t.end <= last]
    if behind and (not before or i - before[-1].end > 3):
        return behind[0]
    return before[-1] if before else None


def find_remarks(narration: Narration) -> list[Remark]:
    """Return the complaint (the first one said) and the recommendations, in the speaker's words."""
    words = words_of(narration)
    out: list[Remark] = []
    complained = False
    for number, (start, end) in enumerate(words.sentences):
        kind = _kind(words, start, end, complained, number)
        if kind is None:
            continue
        which, i, n = kind
        first, last = start, end
        if end - start > _LONG:
            first, last = _piece(words, scopes_of(words), i, n)
        if last <= i + n and not any(word not in _NO_CAUSE for word in words.words[first:i]):
            continue  # what announced it was not gone on with
        text, s, e = _text(narration, words, first, last)
        if which == "complaint":
            complained = True
        out.append(Remark(kind=which, text=text, at=narration.at(s, e)))
    return out


def _kind(
    words: Words, start: int, end: int, complained: bool, number: int
) -> tuple[Literal["complaint", "recommendation"], int, int] | None:
    """Return what a sentence tells, and the words that announce it: where they begin, and how many."""
    row = words.words
    opens = _by_first("complaint", "opens").keys() | _by_first("recommendation", "opens").keys()
    for i in range(start, end):
        if row[i] not in opens:
            continue
        if not complained and number < 12 and (n := _at(row, i, "complaint", "opens")):
            return "complaint", i, n
        if n := _at(row, i, "recommendation", "opens"):
            if _of_a_value(row, i, i + n, end):
                continue
            before = row[max(start, i - 3) : i]
            if any(w in ("didn't", "don't", "not", "doesn't", "no", "i", "we") for w in before[-1:]) and row[
                i
            ] in ("need", "needs", "should", "ought", "need"):
                continue
            return "recommendation", i, n
    return None


def _of_a_value(row: tuple[str, ...], i: int, after: int, end: int) -> bool:
    """Tell whether words that recommend say what a value should be: "it ought to be at four"."""
    if row[after - 1] not in _SHOULD or row[i] in ("recommend", "recommended", "suggest", "suggested"):
        return False
    while after < end and row[after] in _TO_BE:
        after += 1
    behind = row[after:end]
    if not behind or behind[0] in (".", ",", ";", "?", "!"):
        return True  # "when it ought to be"
    behind = behind[1:] if behind[0] in _ABOUT else behind
    return bool(behind) and (behind[0] in NUMBER_WORDS or behind[0][:1].isdigit() or behind[0] in _ALIKE)


_SHOULD = frozenset(("should", "to", "be", "have", "needs", "need"))
_TO_BE = frozenset(("to", "be", "hold", "read", "show", "run", "sit", "see", "draw", "have"))
_ABOUT = frozenset(
    ("at", "about", "around", "near", "more", "under", "over", "below", "above", "in", "between")
)
_ALIKE = frozenset(
    ("equal", "even", "same", "like", "minus", "half", "zero", "open", "closed", "shut", "off")
)


__all__ = ["Scopes", "find_conclusions", "find_remarks"]
