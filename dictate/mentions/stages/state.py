"""Stages told by the state that a machine was in, and by values that one's own hand moved.

told_by_state(row, first, end, ...)     "with the ice it was two", "6.8 amps with the new belt on"
moved_by_hand(row, placed, starts)      "was pre-charged at one bar and I let it down to 0.8"
renewed(row, placed)                    "he read 28, so he put a new one in, and the new one reads 34.8"
turned_late(row, sentences, worked)     the words behind all work that go back to how it was found
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Literal

from dictate.mentions.patterns import Words
from dictate.mentions.stages.phrases import stage_phrases
from dictate.mentions.word_lists import word_list
from dictate.record.visit import Reading

Placed = tuple[int, int, Reading]
_Stage = Literal["as_found", "as_left"]
_STOPS = ((".",), (",",), (";",), ("and",), ())
_REACH = 7  # words behind a value in which its state may be told
_AGAIN = 30  # words from a value to the one that it was brought to


def told_by_state(
    row: Sequence[str], first: int, end: int, start: int, until: int, ends: int
) -> _Stage | None:
    """Read the state that a value was measured in: behind it up to `until`, or in front of it from `start`.

    `ends` is the end of the value before, so that a state is not taken from another value's clause.
    """
    if row[end : end + 1] and tuple(row[end + 1 : end + 2]) in _STOPS and end < until:
        if row[end] in {"clean", "cleaned", "washed"}:
            return "as_left"  # "420 with the dirty coil and 290 clean"
        if row[end] in {"dirty", "iced", "plugged", "clogged", "choked"}:
            return "as_found"
    for i in range(end, min(until, end + _REACH)):
        if row[i] in {";", "but", "then", "and"}:
            break
        if row[i] == "," and not {",", ".", ";"} & set(row[i + 1 : until + 1]):
            break  # "28 psi in, with the new filter 51": the state of the next value
        stage = _state_at(row, i, until)
        if stage is not None:
            return stage
    for i in range(max(start, ends, first - 12), first):
        stage = _state_at(row, i, first)
        if stage is not None and (i == start or row[i - 1] in {",", "and", "but", ";", "so"}):
            return stage
    return None


def _state_at(row: Sequence[str], i: int, stop: int) -> _Stage | None:
    """Return the stage of a state told at word i: "with the ice", "when it was clogged"."""
    if row[i] == "with":
        k = i + 1
        while k < stop and row[k] in {"the", "a", "that", "all", "my", "it", "coil", "both", "its"}:
            k += 1
        if k >= stop or k > i + 4:
            return None
        if row[k] in word_list("stage_new") and row[k + 1 : k + 2] not in (("gauges",), ("meter",)):
            return "as_left"
        foul = row[k] in word_list("stage_foul_things")
        for m in range(k, min(stop, k + 4)):
            if row[m] in {",", ";", "and", "."}:
                break
            foul = foul or row[m] in word_list("stage_foul")
        return "as_found" if foul or row[k] in word_list("stage_old") else None
    if row[i] in {"when", "while"} and row[i + 1 : i + 2] and i + 2 < stop:
        said = row[i + 1 : min(stop, i + 8)]
        if {"was", "were", "'s", "'d"} & set(said) and word_list("stage_foul") & set(said):
            return "as_found"
    return None


def moved_by_hand(row: Sequence[str], placed: Sequence[Placed], starts: Sequence[int]) -> None:
    """Set found and left where a value was and one's own hand brought it to another one, in place."""
    for n, (first, _, reading) in enumerate(placed):
        if not n or reading.role not in {"measured", "target"} or reading.quantity in {"vacuum", "mass"}:
            continue
        k = n - 1
        while k and reading.role == "measured" and placed[k][2].role == "target":
            k -= 1  # "was holding 58 and the sheet says fifty. Ran it down to 51"
        f, e, old = placed[k]
        alike = old.quantity == reading.quantity and old.unit == reading.unit and old.value != reading.value
        if not alike or old.role != "measured" or first - e > _AGAIN or old.stage == "as_left":
            continue
        gap = row[e:first]
        hand = next((k for k in range(len(gap)) if _hand(gap, k)), None)
        if hand is None:
            continue
        was = {"was", "were", "had", "sat"} & set(row[max(starts[k], f - 7) : f])
        behind = gap[hand:]
        brought = behind[-1:] in (("to",), ("at",)) or set(behind) & word_list("stage_came_to")
        if brought and (was or old.point == reading.point):
            old.stage = old.stage or "as_found"
            if reading.role == "measured":
                reading.stage = reading.stage or "as_left"


def _hand(gap: Sequence[str], k: int) -> bool:
    """Tell whether somebody set to work at a word: "I let it down", "so I turned it up"."""
    if gap[k] not in word_list("stage_by_hand"):
        return False
    before = gap[max(0, k - 3) : k]
    if {"hour", "hours", "minutes", "while", "time"} & set(gap[k + 2 : k + 6]):
        return False  # "gave it an hour"
    if before[-1:] in ((".",), (";",)) and gap[k + 1 : k + 2] in (("it",), ("that",), ("them",), ("her",)):
        return True  # "Ran it down to 51"
    return bool({"i", "we", "i've", "he"} & set(before)) and not {"didn't", "n't", "never", "not"} & set(
        before
    )


def renewed(row: Sequence[str], placed: Sequence[Placed]) -> None:
    """Set found what is told of a part before the new one is, and left what the new one gave, in place."""
    for n, (_, _, reading) in enumerate(placed):
        if reading.stage != "as_left" or reading.role != "measured":
            continue
        if reading.quantity not in {"resistance", "capacitance", "current"}:
            continue
        for f, e, old in reversed(placed[max(0, n - 4) : n]):
            if placed[n][0] - e > _AGAIN:
                break
            if old.quantity != reading.quantity or old.role != "measured":
                continue
            same = old.component == reading.component and old.equipment == reading.equipment
            gap = row[e : placed[n][0]]
            new_after = "new" in gap and "new" not in row[max(0, f - 6) : f]
            fitted = word_list("stage_fitted") & set(gap) or _opens_with_new(gap)
            if same and old.stage is None and new_after and fitted:
                old.stage = "as_found"
            break


def _opens_with_new(gap: Sequence[str]) -> bool:
    """Tell whether a sentence begins with the new part that is measured: "reads 1.9. New cap 5.1"."""
    return any(
        gap[k] in {".", ","} and gap[k + 1] == "new" and len(gap) - k <= 5 for k in range(len(gap) - 1)
    )


def second_round(row: Sequence[str], placed: Sequence[Placed], words: Words, repaired: int | None) -> None:
    """Set found and left where several values are told again with "now", in place.

    "95 and 290, superheat 31 ... she's at 128 and 350 now, superheat 13, subcooling 8": one value alone may
    be another place's, several with a counterpart of other values are a second round. Where all work was told
    later (`repaired`, the word of the first), a second round was a second look.
    """
    for start, stop in sorted({words.sentences[words.sentence_of[f]] for f, _, _ in placed}):
        if "now" not in row[start + 1 : stop] or (repaired is not None and repaired > stop):
            continue
        here = [r for f, _, r in placed if start <= f < stop and r.role == "measured"]
        if len(here) < 3 or any(r.stage == "as_found" for r in here):
            continue
        before = [r for f, _, r in placed if f < start and r.role == "measured" and r.stage != "as_left"]
        # The nearest counterpart: what was told of another machine before it is not looked at again.
        nearest = ((next((old for old in reversed(before) if _again(old, new)), None), new) for new in here)
        pairs = [(old, new) for old, new in nearest if old is not None]
        if len({id(new) for _, new in pairs}) < 2:
            continue
        for old, _ in pairs:
            old.stage = "as_found"
        for new in here:
            new.stage = "as_left"


def _again(old: Reading, new: Reading) -> bool:
    """Tell whether two readings are of one thing at two times."""
    same = (old.quantity, old.unit, old.equipment) == (new.quantity, new.unit, new.equipment)
    place = old.point == new.point and old.component == new.component
    named = new.point or new.component or new.quantity in {"superheat", "subcooling"}
    return same and place and bool(named) and old.value != new.value


def turns(row: Sequence[str], begin: int) -> bool:
    """Tell whether the sentence at word `begin` turns from the result to the story: "What had gone"."""
    if begin >= len(row) or row[begin] not in _turning():
        return False
    head = tuple(row[begin : begin + 6])
    return any(head[: len(p)] == p for p in _turning()[row[begin]])


@cache
def _turning() -> dict[str, list[tuple[str, ...]]]:
    """Return the phrases that turn back by their first word."""
    out: dict[str, list[tuple[str, ...]]] = {}
    for phrase in stage_phrases("turns_back"):
        out.setdefault(phrase[0], []).append(phrase)
    return out


def turned_late(row: Sequence[str], sentences: Sequence[tuple[int, int]], worked: int | None) -> range:
    """Return the words that go back, behind the last work `worked`, to how things were found."""
    if worked is None:
        return range(0)
    heads = stage_phrases("turns_late")
    back: int | None = None
    for begin, end in sentences:
        if back is not None and "now" in row[begin : min(end, begin + 5)]:
            return range(back, begin)  # "How it is now."
        if begin > worked and any(tuple(row[begin : begin + len(p)]) == p for p in heads):
            back = begin
    return range(0) if back is None else range(back, len(row))
