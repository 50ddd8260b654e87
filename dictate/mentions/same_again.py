"""Values that repeat the one before for another place: "the middle one the same", "leg three ditto".

    repeat_values(subject)

The words have to name another place or thing right before them, and a value has to stand in front of that in
the same sentence, or in the one before where nothing but the next name of a row stands between ("Left one
thirty-eight. Right, same."); what then follows must end the phrase: "the same marking" and "the same as the
lugs" repeat nothing that can be written down, "the same as two" does where two was the last.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache

from dictate.mentions.how_many import count_of
from dictate.mentions.phrases import Phrases
from dictate.mentions.states import others_of
from dictate.mentions.whose.subject import Subject
from dictate.mentions.whose.taken import SMALL, Taken
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


_ROW = frozenset(
    "one two three four five six 1 2 3 4 5 6 a b c first second third fourth".split()  # noqa: SIM905
)
"""What the things of a row are called by; the sides of a machine are another set of such names."""
_PAIR = {"one to two": "L1-L2", "two to three": "L2-L3", "one to three": "L1-L3", "three to one": "L1-L3"}
_AROUND = frozenset(("the", "and", "number", "one's", ",", "then", "leg", "fan", "motor", "through", "after"))
_STOPS = frozenset((".", ",", ";", "?", "!"))
_NAMED = 6
"""Words of a clause that names the next of a row, and words in front of a value that name the one before."""


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
        end = phrase.end + _as_the_last(subject, phrase.start, phrase.end)
        behind = words[end] if end < len(words) else "."
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
            place = _next_of_row(subject, phrase.start) or _named(subject, at)
            stood = _stood(subject, phrase.start, phrase.end) if place is None else None
            if stood is not None:
                added.append(stood)
                continue
        elif behind in _LEADS:
            counted = _counted_behind(words, phrase.end + 1)
            if counted is not None:
                added += _others(subject, at, counted[0], counted[1])
                continue
            place = _named_behind(subject, at, phrase.end + 1)
            end = phrase.end + 2
            if place is not None and "." in words[at - 1 : at]:
                continue
        else:
            continue
        if place is None:
            continue
        begin, point, component, which = place
        last = next((t for t in reversed(subject.found.readings) if t.end <= begin), None)
        if added and last is not None and last.end <= added[-1].start < begin:
            last = added[-1]  # "two to three, same. One to three, same again"
        if last is None or begin - last.end > 8 or _parted(words, last, begin):
            continue
        reading = last.reading
        if reading.role != "measured" or last.movement or (point, which) == (reading.point, reading.which):
            continue
        if point in _PAIR.values() and reading.point not in _PAIR.values():
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


def _parted(words: Sequence[str], last: Taken, begin: int) -> bool:
    """Tell whether a sentence that says more than its value stands between a value and the next name."""
    between = [w for w in words[last.end : begin] if w not in _AROUND and w not in _LEADS]
    return not {".", "?", "!"}.isdisjoint(between) and len(between) > 1


def _as_the_last(subject: Subject, begin: int, end: int) -> int:
    """Return the words of "as two", "as the first one" behind "same", where that one was the last."""
    words = subject.words
    if words[end : end + 1] not in (["as"], ["like"]):
        return 0
    k = end + 1 + (words[end + 1 : end + 2] in (["the"], ["number"]))
    name = words[k] if k < len(words) else "."
    k += 1 + (words[k + 1 : k + 2] in (["one"], ["side"]))
    if name in {"first", "other"} and words[k : k + 1] not in ([","], ["."], []):
        return 0
    last = next((t for t in reversed(subject.found.readings) if t.end <= begin), None)
    if last is None or not (name in _ROW or name in word_list("readings_sides")):
        return 0
    return k - end if name in {"other", *words[max(0, last.start - _NAMED) : last.start]} else 0


def _next_of_row(subject: Subject, at: int) -> tuple[int, str | None, str | None, str | None] | None:
    """Return the next name of a row that is a clause of its own: "Left fan nought point four. | Right,"."""
    words = subject.words
    while at > 0 and words[at - 1] in _BETWEEN:
        at -= 1
    begin = at
    while begin > 0 and words[begin - 1] not in _STOPS and at - begin <= _NAMED:
        begin -= 1
    if not {"leg", "phase", "line"}.isdisjoint(words[begin:at]):
        return None  # a place of its own: "leg three, ditto"
    lead = [w for w in words[begin:at] if w not in _AROUND]
    last = next((t for t in reversed(subject.found.readings) if t.end <= begin), None)
    pair = _PAIR.get(" ".join(words[begin:at]).removesuffix(" ,"))
    if pair is not None and words[begin - 1 : begin] == ["."]:
        return begin, pair, None, None
    if last is None or not lead or len(lead) > 2:
        return None
    before = words[max(0, last.start - _NAMED) : last.start]
    new = lead[0] in {"new", "other"} and len(lead) == 2
    name = lead[-1] if new else lead[0]
    if len(lead) == 2 and not new and not any(c.start <= begin + 1 < c.end for c in subject.components):
        return None
    sides = word_list("readings_sides")
    row = _ROW if name in _ROW else sides if name in sides else None
    if row is None or row.isdisjoint(w for w in before if w != name):
        return None
    return begin, None, None, SMALL.get(name, name)


def _stood(subject: Subject, begin: int, end: int) -> Taken | None:
    """Return the pressure that stood: "blew it up to three hundred. Twenty minutes, | same again"."""
    readings = [t for t in subject.found.readings if t.end <= begin][-2:]
    if len(readings) < 2 or subject.mode_at(begin) not in {"pressure_test", "vacuum"}:
        return None
    put, waited = readings
    if waited.reading.quantity != "duration" or put.reading.quantity not in {"pressure", "vacuum"}:
        return None
    led = [w for w in subject.words[waited.end : begin] if w not in _BETWEEN and w != "later"]
    stopped = sum(w in _STOPS for w in subject.words[put.end : waited.start])
    if led or waited.start - put.end > _NAMED or stopped > 1 or put.reading.role != "measured":
        return None
    copy = put.reading.model_copy(
        deep=True,
        update={
            "at": subject.narration.at(begin, end),
            "heard": subject.narration.heard(begin, end),
        },
    )
    return replace(put, reading=copy, start=begin, end=end)


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
