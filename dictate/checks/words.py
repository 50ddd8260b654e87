"""The words behind the record: places in the transcript, phrase lists, and what a part's name says.

Rules read the record's own fields first. A phrase list (vocabulary/work.toml) answers what the record has no
field for: that a circuit was found empty, that a joint was a flare, that a regulator was on the cylinder.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Protocol

from dictate.checks.cited import clock
from dictate.record.base import At
from dictate.record.transcript import Segment
from dictate.record.visit import Equipment, Record
from dictate.vocabulary.load import table


class Said(Protocol):
    """Anything of the record with a place, an id and a machine."""

    id: str
    equipment: str | None
    at: At


@dataclass
class Phrase:
    """A stretch of the transcript that matched a phrase list; usable as evidence (it has a place, no id)."""

    heard: str
    at: At
    id: str = ""
    equipment: str | None = None


@lru_cache(maxsize=1024)
def kind_of_part(name: str) -> str:
    """Return the class of a part by its name (see vocabulary/work.toml); "other" when no entry fits.

    >>> kind_of_part("compressor contactor"), kind_of_part("evaporator coil"), kind_of_part("door gasket")
    ('electrical', 'circuit', 'neutral')
    """
    text = " ".join(name.lower().replace("-", " ").split())
    for kind in ("drier", "circuit_first", "low_voltage", "electrical", "neutral", "moving", "circuit"):
        if stands_in(text, table("work")["parts"][kind]["words"]):
            return kind.removesuffix("_first")
    return "other"


def stands_in(text: str, entries: Iterable[str]) -> bool:
    """True when an entry stands in the text as whole words; a plural ending is allowed."""
    return any(re.search(rf"\b{re.escape(e.replace('-', ' '))}(?:s|es)?\b", text) for e in entries)


def type_is(machine: Equipment | None, group: str, key: str = "types") -> bool:
    """True when the machine's type or name is one of a list of vocabulary/work.toml."""
    if machine is None:
        return False
    text = " ".join(f"{machine.type or ''} {machine.name or ''}".lower().replace("-", " ").split())
    return bool(text) and stands_in(text, table("work")[group][key])


@lru_cache(maxsize=256)
def _phrase(name: str) -> tuple[re.Pattern[str], re.Pattern[str] | None]:
    """Compile a phrase list of vocabulary/work.toml: what is said, and what takes it back."""
    entry = table("work")["phrases"][name]
    said = re.compile("|".join(f"(?:\\b{p})" for p in entry["said"]))
    unless = entry.get("unless") or []
    return said, re.compile("|".join(rf"\b{re.escape(u)}\b" for u in unless)) if unless else None


def phrases(record: Record, name: str) -> Iterator[Phrase]:
    """Yield the places where a phrase list of vocabulary/work.toml was said, in order.

    A match does not count when a word of its `unless` list stands among the six words before it in the
    same sentence, or inside it.
    """
    said, unless = _phrase(name)
    for index, segment in enumerate(record.transcript):
        text, starts = _spoken(segment)
        for match in said.finditer(text):
            before = re.split(r"[.?!;]", text[: match.start()])[-1].split()[-6:]
            if unless is not None and unless.search(" ".join([*before, match.group()])):
                continue
            first = max((k for k, s in enumerate(starts) if s <= match.start()), default=0)
            last = max((k for k, s in enumerate(starts) if s < match.end()), default=first)
            yield Phrase(match.group(), _at(segment, index, first, last))


def _spoken(segment: Segment) -> tuple[str, list[int]]:
    """Return the segment's words in lower case without commas, and where each word starts."""
    return _joined(tuple(w.text for w in segment.words) or tuple(segment.text.split()))


@lru_cache(maxsize=512)
def _joined(written: tuple[str, ...]) -> tuple[str, list[int]]:
    """Join words as `_spoken` gives them; kept, because every phrase list asks for every segment."""
    starts: list[int] = []
    text = ""
    for word in written:
        text += " " if text else ""
        starts.append(len(text))
        text += word.lower().replace("’", "'").replace("-", " ").replace(",", "")
    return text, starts


def _at(segment: Segment, index: int, first: int, last: int) -> At:
    """Return the place of some words of a segment."""
    words = segment.words
    inside = first < len(words) and last < len(words)
    return At(
        clip=segment.clip,
        start_s=words[first].start_s if inside else segment.start_s,
        end_s=words[last].end_s if inside else segment.end_s,
        segment=index,
        first_word=first if inside else None,
        last_word=last if inside else None,
    )


def place(thing: Said) -> tuple[int, float, int] | None:
    """Return a key that sorts by when a thing was said; None when the record does not tell."""
    at = thing.at
    if at.segment is None and at.start_s is None:
        return None
    return (at.segment if at.segment is not None else 0, at.start_s or 0.0, at.first_word or 0)


def said_after(later: Said, earlier: Said) -> bool | None:
    """True or False when both places are known; None when the order cannot be told."""
    a, b = place(later), place(earlier)
    return None if a is None or b is None else a > b


def when(thing: Said) -> str:
    """Return " (1:23)" where the sound has times, else nothing."""
    time = clock(thing.at)
    return f" ({time})" if time else ""


def listing(names: Sequence[str]) -> str:
    """Join names as a sentence does: "a", "a and b", "a, b and c"."""
    names = list(dict.fromkeys(names))
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}" if names else ""
