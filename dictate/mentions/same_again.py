"""Values that repeat the one before for another place: "the middle one the same", "leg three ditto".

    repeat_values(subject)

The words have to name another place or thing right before them, and a value has to stand in front of that in
the same sentence; what then follows must end the phrase: "the same marking" and "the same as the lugs" repeat
nothing that can be written down.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache

from dictate.mentions.how_many import count_of
from dictate.mentions.phrases import Phrases
from dictate.mentions.states import others_of
from dictate.mentions.whose.subject import Subject
from dictate.mentions.whose.taken import Taken
from dictate.mentions.word_lists import word_list

_ENDS = frozenset((".", ",", ";", "and", "but", "so", "?", "!", "too", "then"))
_BETWEEN = frozenset(
    ("is", "'s", "was", "reads", "read", "reading", "are", "were", ",", "about", "just", "exactly")
)


_PINS = frozenset(
    ("pins", "terminals", "posts", "windings", "legs", "leads", "fans", "heaters", "motors", "ones")
)
_LEADS = frozenset(("on", "at", "for", "with", "from", "across"))
"""What leads from "same" to what has the value as well: "same on the other two"."""


@cache
def _phrases() -> Phrases:
    return Phrases({"same": sorted(word_list("values_same"))})


@cache
def _firsts() -> frozenset[str]:
    return frozenset(p.split()[0] for p in word_list("values_same")) | {"same"}


def repeat_values(subject: Subject) -> None:
    """Add a reading for each place whose value was said to be the same as the one before, in place."""
    words = subject.words
    added: list[Taken] = []
    if (_firsts() - {"the"}).isdisjoint(words):
        return
    for phrase in _phrases().find(subject.narration):
        behind = words[phrase.end] if phrase.end < len(words) else "."
        end = phrase.end
        at = phrase.start
        if behind in _ENDS:
            while at > 0 and words[at - 1] in _BETWEEN:
                at -= 1
            sides = _both_sides(words, at)
            if sides is not None:
                added += _to_both_sides(subject, sides, phrase.end)
                continue
            counted = _counted_before(words, at)
            if counted is not None:
                added += _others(subject, counted[0], phrase.end, counted[1])
                continue
            place = _named(subject, at)
        elif behind in _LEADS:
            counted = _counted_behind(words, phrase.end + 1)
            if counted is not None:
                added += _others(subject, at, counted[0], counted[1])
                continue
            place = _named_behind(subject, at, phrase.end + 1)
            end = phrase.end + 2
        else:
            continue
        if place is None:
            continue
        begin, point, component, which = place
        last = next((t for t in reversed(subject.found.readings) if t.end <= begin), None)
        if last is None or begin - last.end > 8 or {".", "?", "!"} & set(words[last.end : begin]):
            continue
        reading = last.reading
        if reading.role != "measured" or last.movement or (point, which) == (reading.point, reading.which):
            continue
        if any(t.start < end and t.end > begin for t in subject.found.readings):
            continue
        if words[phrase.end : phrase.end + 1] == [","] and any(
            t.start == phrase.end + 1 and t.reading.state == "open" == reading.state and not t.value.ground
            for t in subject.found.readings
        ):
            continue  # "T1 to T3 the same, OL": the value is said
        copy = reading.model_copy(
            deep=True,
            update={
                "point": point or (None if component else reading.point),
                "component": component or reading.component,
                "which": which or (None if component else reading.which),
                "at": subject.narration.at(begin, phrase.end),
                "heard": subject.narration.heard(begin, phrase.end),
            },
        )
        added.append(replace(last, reading=copy, start=phrase.start, end=phrase.end))
    if added:
        subject.found.readings.extend(added)
        subject.found.readings.sort(key=lambda t: t.start)


def _both_sides(words: Sequence[str], at: int) -> int | None:
    """Return where "in and out", "line and load" in front of the phrase begin."""
    pairs = (["in", "and", "out"], ["line", "and", "load"], ["top", "and", "bottom"])
    if words[at - 3 : at] in pairs:
        return at - 3
    return at - 2 if words[at - 2 : at] == ["both", "sides"] else None


def _to_both_sides(subject: Subject, begin: int, end: int) -> list[Taken]:
    """Read "398 at the contactor, in and out the same": the line side, and another for the load side."""
    last = _value_before(subject, begin)
    if last is None or last.reading.quantity != "voltage" or last.reading.point not in {None, "line"}:
        return []
    last.reading.point = "line"
    copy = last.reading.model_copy(
        deep=True,
        update={
            "point": "load",
            "at": subject.narration.at(begin, end),
            "heard": subject.narration.heard(begin, end),
        },
    )
    return [replace(last, reading=copy, start=begin, end=end)]


def _counted_before(words: Sequence[str], at: int) -> tuple[int, int] | None:
    """Return where "the other two", "both" in front of the phrase begin, and how many repeat the value."""
    if words[at - 1 : at] and words[at - 1] in _PINS:
        at -= 1  # "all three pins the same"
    count = count_of(words[at - 1]) if at else 0
    if count and words[at - 3 : at - 1] == ["the", "other"]:
        return at - 3, count
    if count and words[at - 2 : at - 1] == ["other"]:
        return at - 2, count
    if count and words[at - 2 : at - 1] == ["all"]:
        return at - 2, count - 1
    return (at - 1, 1) if words[at - 1 : at] == ["both"] else None


def _counted_behind(words: Sequence[str], at: int) -> tuple[int, int] | None:
    """Return where "the other two" behind "same on" ends, and how many repeat the value."""
    at += words[at : at + 1] == ["the"]
    count = count_of(words[at + 1]) if words[at : at + 1] == ["other"] and at + 1 < len(words) else 0
    if not count:
        return None
    end = at + 2
    while end < len(words) and end < at + 4 and words[end].endswith("s") and words[end] not in _BETWEEN:
        end += 1
    return end, count


def _others(subject: Subject, begin: int, end: int, count: int) -> list[Taken]:
    """Return the readings of the others: "thirty-one ohms, same on the other two"."""
    last = _value_before(subject, begin)
    if last is None or any(t.start < end and t.end > begin for t in subject.found.readings):
        return []
    points = others_of(last.reading.point) if count == 2 else ()
    copies = []
    for i in range(count):
        point = points[i] if points else last.reading.point
        copies.append(
            last.reading.model_copy(
                deep=True,
                update={
                    "point": point,
                    "which": "other" if last.reading.which else None,
                    "at": subject.narration.at(begin, end),
                    "heard": subject.narration.heard(begin, end),
                },
            )
        )
    return [replace(last, reading=copy, start=begin, end=end) for copy in copies]


def _value_before(subject: Subject, begin: int) -> Taken | None:
    """Return the measured value that ends close in front of a token, in the same sentence."""
    last = next((t for t in reversed(subject.found.readings) if t.end <= begin), None)
    if last is None or begin - last.end > 8 or {".", "?", "!"} & set(subject.words[last.end : begin]):
        return None
    return last if last.reading.role == "measured" and not last.movement else None


def _named_behind(
    subject: Subject, begin: int, at: int
) -> tuple[int, str | None, str | None, str | None] | None:
    """Return what "same at the transformer", "same on the load side" names, as `_named` does."""
    words = subject.words
    at += words[at : at + 1] == ["the"]
    for p in subject.points:
        if p.start == at:
            return begin, p.name, None, p.which
    for c in subject.components:
        if c.start == at:
            return begin, None, c.name, c.which
    if words[at : at + 1] and words[at] in word_list("readings_sides"):
        behind = words[at + 1] if at + 1 < len(words) else "."
        if behind == "one" or behind in _ENDS:
            return begin, None, None, words[at]
    return None


def _named(subject: Subject, end: int) -> tuple[int, str | None, str | None, str | None] | None:
    """Return what is named right before a token: (start, point, component, which)."""
    for p in subject.points:
        if p.end == end:
            return p.start, p.name, None, p.which
    for c in subject.components:
        if c.end == end or (c.which is not None and c.which.isdigit() and c.end == end - 1):
            return c.start, None, c.name, c.which
    words = subject.words
    if words[end - 1 : end] == ["one"] and words[end - 2] in word_list("readings_sides"):
        return end - 2, None, None, words[end - 2]
    if words[end - 2 : end] == ["the", "other"]:
        return end - 2, None, None, "other"
    return None


__all__ = ["repeat_values"]
