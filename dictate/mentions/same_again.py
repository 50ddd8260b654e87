"""Values that repeat the one before for another place: "the middle one the same", "leg three ditto".

    repeat_values(subject)

The words have to name another place or thing right before them, and a value has to stand in front of that in
the same sentence; what then follows must end the phrase: "the same marking" and "the same as the lugs" repeat
nothing that can be written down.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from dictate.mentions.phrases import Phrases
from dictate.mentions.subject import Subject
from dictate.mentions.taken import Taken
from dictate.mentions.word_lists import word_list

_ENDS = frozenset((".", ",", ";", "and", "but", "so", "?", "!", "too", "then"))
_BETWEEN = frozenset(
    ("is", "'s", "was", "reads", "read", "reading", "are", "were", ",", "about", "just", "exactly")
)


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
        if behind not in _ENDS:
            continue
        at = phrase.start
        while at > 0 and words[at - 1] in _BETWEEN:
            at -= 1
        place = _named(subject, at)
        if place is None:
            continue
        begin, point, component, which = place
        last = next((t for t in reversed(subject.found.readings) if t.end <= begin), None)
        if last is None or begin - last.end > 8 or {".", "?", "!"} & set(words[last.end : begin]):
            continue
        reading = last.reading
        if reading.role != "measured" or last.movement or (point, which) == (reading.point, reading.which):
            continue
        if any(t.start < phrase.end and t.end > begin for t in subject.found.readings):
            continue
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
