"""Of how many things one value was said: "point six eight apiece", "all four fans 0.4", "0.8 each on both".

    several(words, clause, value) -> Several | None

A phrase that counts stands right behind the value ("on each of the two evap fans") or in front of it with
nothing but a verb between ("both fans draw 0.9"). "Each" and "apiece" count nothing themselves: the count
is the next one behind ("each, all 4"), else the last one in front ("the two good ones pull ... apiece");
without one it is one value.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from dictate.vocabulary.load import table

_STOPS = frozenset((".", "?", "!", ";"))


_TOLD = 90
"""Words within which it was told how many there are."""
_ACROSS = (["across"], ["between"])
"""What tells behind a value that it was read at another place than the one in front of it."""
_VERBS = [[w] for w in ("are", "were", "run", "running", "pull", "draw", "take", "read", "have")]
"""What stands behind a count that has no noun: "and two are running at point nine each"."""


@dataclass(frozen=True, slots=True)
class Several:
    """A count, its noun if one was said, and the names of the things if they were told one by one."""

    count: int
    noun: str | None = None
    which: tuple[str, ...] = ()

    @property
    def legs(self) -> bool:
        """Tell whether the legs of a supply or the poles of a switch are counted."""
        return self.noun in _set("legs")


@cache
def _set(name: str) -> frozenset[str]:
    return frozenset(table("several")[name])


@cache
def _counts() -> dict[str, int]:
    return dict(table("several")["counts"])


def count_of(word: str) -> int:
    """Return the count that a word says, 0 for none: "two" is 2."""
    return _counts().get(word, 0)


def speaks_of_several(words: Sequence[str]) -> bool:
    """Tell whether a stretch of words can say something of several things; the cheap look first."""
    return not _set("words").isdisjoint(words)


def several(
    words: Sequence[str],
    clause: tuple[int, int],
    value: tuple[int, int],
    *,
    alone: bool = True,
    after: bool = False,
) -> Several | None:
    """Return of how many things the value at the tokens [start, end) was said, None for one.

    `clause` is the stretch between the values before and behind, within the sentence. A value that is not
    `alone` is one of a list, so that a phrase in front counts the list; one `after` another value leaves it
    the phrase behind that.
    """
    first, last = clause
    start, end = value
    behind = words[end : min(last, end + 12)]
    if behind[:3] in (["all", "the", "way"], ["straight", "all", "the"]):
        behind = behind[3 + (behind[3:4] in (["across"], ["around"], ["round"], ["through"], ["along"])) :]
    stop = next((i for i, w in enumerate(behind) if w in _STOPS), len(behind))
    closed = stop < len(behind)
    behind = behind[:stop]
    front = words[max(first, start - 14) : start]
    if not _set("together").isdisjoint(behind[:5]) or not _set("together").isdisjoint(front[-5:]):
        return None
    but = _all_but(words, start, front, behind) if alone else None
    if but is not None:
        return but
    of_them = _of_all_told(words, start, front, behind) if alone else None
    if of_them is not None:
        return of_them
    own = words[last + 1 : last + 2] in _ACROSS  # "zero volts both legs to ground and zero across"
    found, distributed = _behind(behind, closed or own)
    if found is not None:
        return found
    placed = after and behind[:1] in _ACROSS
    led, led_each = _in_front(front, after) if alone and not placed else (None, False)
    if led is not None:
        return led
    if not (distributed or led_each):
        return None
    counted = _count_in(behind, 0) or _last_count(front) or _count_ahead(behind)
    if counted is not None and "except" in behind and counted.count > 2:
        return Several(counted.count - 1, counted.noun)
    return counted


def _all_but(words: Sequence[str], start: int, front: Sequence[str], behind: Sequence[str]) -> Several | None:
    """Return the others of "four fans, all but the third pull 2.2", "all of them 6.0 except one"."""
    at = next((i for i in range(len(front) - 2, -1, -1) if front[i] == "all"), None)
    if at is None or len(front) - at > 8:
        return None
    left_out = front[at + 1] in {"but", "except"}
    theirs = list(front[at + 1 : at + 3]) == ["of", "them"] and "except" in behind[:3]
    if not left_out and not theirs:
        return None
    begin = start - len(front) + at
    back = words[max(0, begin - 14) : begin]
    counted = _last_count(back)
    if counted is None:
        bare = [w for w in back if count_of(w)]
        counted = Several(count_of(bare[-1])) if bare else None
    if counted is None or counted.count < 3:
        return None
    return Several(counted.count - 1, counted.noun)


def _of_all_told(
    words: Sequence[str], start: int, front: Sequence[str], behind: Sequence[str]
) -> Several | None:
    """Read "has 4 fans. 120 volts | at all of them", "the others are | open": the count was told."""
    led = [w for w in behind[:4] if w not in {"on", "at", "to", "across", "for", "going"}]
    of_all = led[:3] in (["all", "of", "them"], ["each", "of", "them"], ["every", "one", "of"])
    tail = list(front)
    while tail and tail[-1] in _set("gap"):
        tail.pop()
    others = tail[-2:] in (["the", "others"], ["the", "rest"])
    if not (of_all or others):
        return None
    for k in range(start - 2, max(0, start - _TOLD), -1):
        count = count_of(words[k])
        if not 3 <= count <= 8:
            continue
        noun, at = _noun(words, k + 1)
        if noun in _set("counted_things") and not any(w in _STOPS for w in words[k:at]):
            return Several(count - others, noun)
    return None


def _behind(behind: Sequence[str], closed: bool) -> tuple[Several | None, bool]:
    """Return what counts right behind a value, and whether it was said of each.

    `closed` tells that a full stop ends the words, and not the next value.
    """
    distributed = False
    led = ""
    for i, word in enumerate(behind[:6]):
        every = word == "every" and behind[i + 1 : i + 2] == ["one"]
        if every or word in _set("each") or (word == "a" and behind[i + 1 : i + 2] == ["piece"]):
            counted = _phrase(behind, i)
            if counted is not None:
                return counted, True
            distributed = True
            continue
        if word == "times" and i <= 2:
            return _times(behind, i), False
        counted = _phrase(behind, i)
        if counted is not None:
            rest = behind[i + _length(behind, i) :]
            to_next = not closed and len(rest) <= 4 and not (i == 0 and rest[:1] in ([","], ["and"]))
            if to_next and led != "," and "," in behind[:i] and set(rest) <= _set("gap") - {","}:
                return None, False  # "start leg 6.9, across both 9.1": the place is of what comes next
            if led in _set("places") or not (to_next or (led == "," and (rest or word == "other"))):
                return counted, distributed
            return None, distributed  # "1.2 amps, the other two the same": of what comes next
        if word not in _set("behind"):
            break
        led = led if word in {"the", "a"} else word
    return None, distributed


def _times(behind: Sequence[str], i: int) -> Several | None:
    """Read "point eight | times three" as said of three; "times three is twenty four" is a sum."""
    count = _counts().get(behind[i + 1], 0) if i + 1 < len(behind) else 0
    ends = behind[i + 2 : i + 3] in ([], [","], ["and"], ["on"], ["across"], ["for"], ["clear"], ["all"])
    return Several(count) if 2 <= count <= 6 and ends else None


def _in_front(front: Sequence[str], after: bool) -> tuple[Several | None, bool]:
    """Return what counts in front of a value with but a verb between, and whether "each" stands there."""
    for i in range(len(front) - 1, -1, -1):
        listed = _listed(front, i)
        if listed is not None:
            return listed, False
        named = _named_row(front, i)
        if named is not None:
            return named, False
        counted = _phrase(front, i)
        if counted is not None:
            at = i + _length(front, i)
            if after and {"across", "between"} & set(front[max(0, i - 2) : i]):
                return None, False  # "4.8, then 7.9, and across the both 12.6"
            if after and i <= 2 and front[i - 1 : i] and front[i - 1] in _set("places"):
                return None, False  # "thirteen ohms on all three, nothing to earth"
            return (counted, False) if set(front[at:]) <= _set("gap") else (None, False)
    near = list(front[-4:])
    return None, bool(_set("each") & set(near)) and not {"except"} & set(near)


def _named_row(front: Sequence[str], i: int) -> Several | None:
    """Read "fans 1 and 2 are" in front of a value as two of them."""
    if front[i] not in {"are", "were", "read", "pull", "draw", "run"} or not set(front[i + 1 :]) <= _set(
        "gap"
    ):
        return None
    listed = _listed(front, i - 1, every=False) if i else None
    if listed is None:
        return None
    at = i - 2 * listed.count
    at -= front[max(0, at) : at + 1] in (["number"], ["numbers"])  # "fans number one and three"
    noun = front[at] if at >= 0 else "."
    return listed if noun.isalpha() and noun.endswith("s") and len(noun) > 3 else None


def _phrase(words: Sequence[str], i: int) -> Several | None:
    """Read a phrase that counts and means every one: "both fans", "all three", "each of the two"."""
    length, count, noun = _parse(words, i)
    if count == 3 and noun == "ways":
        noun = "legs"  # "one point four all three ways": every pair of three terminals
    return Several(count, noun) if length and count > 1 and noun not in _set("no_noun") else None


def _length(words: Sequence[str], i: int) -> int:
    return _parse(words, i)[0]


def _parse(words: Sequence[str], i: int) -> tuple[int, int, str | None]:
    """Return the words, the count and the noun of the phrase at i; no words where there is none."""
    word = words[i]
    k, count = i, 0
    if word in {"each", "every"} and words[i + 1 : i + 2] and words[i + 1] in _set("legs"):
        return 2, 3, words[i + 1]
    if word == "both" and words[i + 1 : i + 2] and words[i + 1] in _set("joins"):
        return 0, 0, None  # "210 both before and after"
    if word == "both":
        k, count = i + 1, 2
        k += words[k : k + 1] == ["of"]
        k += words[k : k + 1] in (["the"], ["them"], ["my"], ["these"], ["those"])
    elif word == "all" or (word in {"each", "one"} and words[i + 1 : i + 2] == ["of"]):
        k = i + 1
        k += words[k : k + 1] == ["of"]
        k += words[k : k + 1] in (["the"], ["these"], ["those"], ["my"])
        count = _counts().get(words[k], 0) if k < len(words) else 0
        k += 1
    elif word == "other" and i + 1 < len(words):
        count = _counts().get(words[i + 1], 0)
        k = i + 2
    elif word == "the" and (placed := placed_count(words, i)):
        return placed
    if not count:
        return 0, 0, None
    k += words[k : k + 2] == ["of", "them"] and 2
    noun, at = _noun(words, k)
    if noun is None and words[k : k + 1] and words[k] in _set("legs"):
        noun, at = f"{words[k]}s", k + 1  # "on all three phase", "both leg"
    return (at if noun else k) - i, count, noun


def placed_count(words: Sequence[str], i: int) -> tuple[int, int, str | None] | None:
    """Return the words, the count and the noun of "the two outside ones", "the outer two are"."""
    if i + 2 >= len(words) or words[i] != "the":
        return None
    count = _counts().get(words[i + 1], 0)
    if count:
        for k in range(i + 2, min(len(words), i + 4)):
            if words[k] == "ones":
                return (k + 1 - i, count, None) if k > i + 2 or words[k - 1].isalpha() else None
            if not words[k].isalpha():
                return None
        return None
    count = _counts().get(words[i + 2], 0)
    if (
        words[i + 1] in _set("placed")
        and count
        and words[i + 3 : i + 4]
        and words[i + 3] in _set("placed_verbs")
    ):
        return 3, count, None
    return None


def _noun(words: Sequence[str], k: int) -> tuple[str | None, int]:
    """Return the plural noun at k with at most two words before it, and where it ends."""
    for i in range(k, min(len(words), k + table("several")["adjectives"] + 1)):
        word = words[i]
        if (
            not word.isalpha()
            or word in _set("singles")
            or (word in _set("gap") and word not in _set("sound"))
        ):
            break
        if word.endswith("s") and len(word) > 3 and not word.endswith("ss"):
            return word, i + 1
    return None, k


def _count_in(words: Sequence[str], i: int) -> Several | None:
    """Return the count behind "each": "each, all 4", "each, there are 2", "each and there's five of them"."""
    for k in range(i, len(words)):
        counted = _phrase(words, k)
        if counted is not None:
            return counted
        there = words[max(0, k - 2) : k]
        if words[k] in _counts() and words[k + 1 : k + 3] == ["of", "them"]:
            return Several(_counts()[words[k]])
        if words[k] in _counts() and (
            there[-1:] == ["are"] or there == ["there", "'s"] or there[-1:] == ["there's"]
        ):
            return Several(_counts()[words[k]])
    return None


def _count_ahead(words: Sequence[str]) -> Several | None:
    """Return the count of "point seven each on the two evap fans"."""
    for k, word in enumerate(words):
        if word in _counts():
            noun, _ = _noun(words, k + 1)
            if noun is not None:
                return Several(_counts()[word], noun)
    return None


def _last_count(words: Sequence[str]) -> Several | None:
    """Return the last count in front: "the two good ones pull", "fans, three of them,", "fans 1 to 4"."""
    for k in range(len(words) - 1, -1, -1):
        counted = _phrase(words, k)
        if counted is not None:
            return counted
        listed = _listed(words, k, every=False)
        if listed is not None:
            return listed
        if words[k] not in _counts():
            continue
        behind = list(words[k + 1 : k + 3])
        if behind == ["of", "them"] or behind[:1] in _VERBS or words[k - 1 : k] == ["are"]:
            return Several(_counts()[words[k]])
        noun, _ = _noun(words, k + 1)
        if noun is not None and noun not in _set("no_noun"):
            return Several(_counts()[words[k]], noun)
    return None


def _listed(words: Sequence[str], i: int, *, every: bool = True) -> Several | None:
    """Read names that a value is said of: "1, 2, 3 and 5 are all", "fans 1 to 4 each", "first and third".

    With `every`, i is the place of the "all" or "each" that closes the list; else of its last name.
    """
    if every:
        if words[i] not in {"all", "each"}:
            return None
        i -= 1
        while i >= 0 and words[i] in {"are", "were", ",", "read", "at", "is"}:
            i -= 1
        if (first := _first_of_them(words, i)) is not None:
            return first
    names: list[str] = []
    ranged = False
    k = i
    while k >= 0 and (name := _name(words[k])) is not None:
        names.insert(0, name)
        k -= k > 0 and words[k - 1].isalpha() and words[k - 1] in _named_alike(words, i)  # "fan one, fan two"
        link = words[k - 1] if k else ""
        if link in {"to", "through", "thru"} and k > 1 and _name(words[k - 2]) is not None:
            ranged = True
        elif link not in {",", "and"}:
            break
        k -= 2
        if k >= 0 and words[k] == ",":
            k -= 1
    if ranged and len(names) == 2:
        names = [str(n) for n in range(int(names[0]), int(names[1]) + 1)]
    return Several(len(names), None, tuple(names)) if 2 <= len(names) <= 12 else None


def _first_of_them(words: Sequence[str], i: int) -> Several | None:
    """Read "the first three were | all", "the top two are | all" as that many."""
    if i < 1 or words[i - 1] not in _set("placed"):
        return None
    count = _counts().get(words[i], 0)
    return Several(count) if 2 <= count <= 12 else None


def _named_alike(words: Sequence[str], i: int) -> tuple[str, ...]:
    """Return the noun in front of the last name, where each name has it: "fan one, fan two and fan three"."""
    return (words[i - 1],) if i > 0 and words[i - 1] not in {"and", "to", "through", "thru"} else ()


def _name(word: str) -> str | None:
    """Return the number that a word names a thing by."""
    if word in {"1", "one", "first"}:
        return "1"
    ordinals = ("second", "third", "fourth", "fifth", "sixth")
    if word in ordinals:
        return str(ordinals.index(word) + 2)
    count = _counts().get(word)
    return None if count is None else str(count)


__all__ = ["Several", "count_of", "several", "speaks_of_several"]
