"""What became of each part that is named: of the labelled narrations, the table tests and the marked snippets.

    told_of(labelled) -> [Named] of a narration, by its labels
    sentences() -> (text, [Named]) of the table tests, which hold the readers to them
    snippets() -> (text, [Named]) of the snippets, in which the handled parts are marked

A label says which part was handled and not where that was said: it is put where the readers found it, or where
only one name can be meant. Where several can, what became of these is left open.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from unittest.mock import patch

import dictate.mentions.handled
from dictate.mentions.handled import handled_of
from dictate.mentions.handled.by_all_words import NOTHING, mentions_of
from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.patterns import words_of
from dictate.mentions.whose.things import Thing
from tests.benchmarks.encoder.marks import unmarked
from tests.benchmarks.steps.told import HOME
from tests.benchmarks.steps.told import TABLES as OF_STEPS
from tests.narrations.labels import Labelled

SNIPPETS = Path(__file__).with_name("snippets")
TABLES = ("parts_told", *OF_STEPS)
BETWEEN = "|"
_BY_STEP = {
    "part_replaced": "replaced",
    "cleaned": "cleaned",
    "adjusted": "adjusted",
    "filter_drier_replaced": "replaced",
}
_PUT_IN = frozenset({"replaced", "installed"})


@dataclass
class Named:
    """The tokens [start, end) that name a part, and what became of it: "replaced|done", `NOTHING`, None for open.

    Of what is left open `one_of` says of which label it may be the part, and `kind` what the label says.
    """

    start: int
    end: int
    told: str | None
    one_of: int | None = None
    kind: str = ""
    placed: str | None = None
    """What training has found that became of it."""


@dataclass(frozen=True)
class _Want:
    names: frozenset[str]
    kinds: tuple[str, ...]


def told_of(labelled: Labelled) -> list[Named]:
    """Return the parts that a narration names, and what its labels say became of each."""
    narration = Narration(list(segments_of(labelled.lines, "c1")))
    with patch.object(dictate.mentions.handled, "sounds_handled", lambda _talk: []):
        doings = handled_of(narration)
    places, things = mentions_of(words_of(narration))
    told: list[str | None] = [NOTHING] * len(things)
    one_of: dict[int, tuple[int, str]] = {}
    for n, want in enumerate(_wanted(labelled)):
        here = [i for i, thing in enumerate(things) if _can_be(thing, want.names)]
        found = [
            (i, kind)
            for i in here
            for h in doings
            for kind in want.kinds
            if things[i] in h.things and _agree(kind, h.action + BETWEEN + h.status)
        ]
        for i, kind in found:
            told[i] = kind
        if not found and len(here) == 1:
            told[here[0]] = want.kinds[0]
        elif not found:
            for i in here:
                if told[i] == NOTHING:
                    told[i], one_of[i] = None, (n, want.kinds[0])
    return [Named(*place, told[i], *one_of.get(i, ())) for i, place in enumerate(places)]


def _wanted(labelled: Labelled) -> Iterator[_Want]:
    for row in labelled.parts:
        actions = row.options("action") or ["replaced"]
        yield _Want(
            frozenset(name for name in row.options("name") or () if name),
            tuple(f"{action}{BETWEEN}done" for action in actions),
        )
    for row in labelled.steps:
        action = _BY_STEP.get(row.get("step"))
        names = row.options("component") or (
            ["filter drier"] if row.get("step") == "filter_drier_replaced" else None
        )
        if action is not None and names:
            yield _Want(frozenset(name for name in names if name), (f"{action}{BETWEEN}{row.get('status')}",))


def _can_be(thing: Thing, names: frozenset[str]) -> bool:
    """Tell whether a part can be the one that a label names: by its name, or the last word of it."""
    return thing.part in names or thing.name in names or any(name.split()[-1] == thing.part for name in names)


def _agree(kind: str, found: str) -> bool:
    (action, _, status), (other, _, became) = kind.partition(BETWEEN), found.partition(BETWEEN)
    return status == became and (action == other or {action, other} <= _PUT_IN)


def sentences() -> Iterator[tuple[str, list[Named]]]:
    """Yield the sentences of the tables, with the parts as the readers take them."""
    for name in TABLES:
        for group in tomllib.loads((HOME / f"{name}.toml").read_text(encoding="utf-8")).values():
            for text, *_ in group["cases"]:
                named = _as_read(text)
                if named:
                    yield text, named


def _as_read(text: str) -> list[Named]:
    narration = Narration(list(segments_of([text], "c1")))
    with patch.object(dictate.mentions.handled, "sounds_handled", lambda _talk: []):
        doings = handled_of(narration)
    places, things = mentions_of(words_of(narration))
    return [
        Named(*place, next((h.action + BETWEEN + h.status for h in doings if thing in h.things), NOTHING))
        for place, thing in zip(places, things, strict=True)
    ]


def snippets() -> Iterator[tuple[str, list[Named]]]:
    """Yield the snippets with what became of each part."""
    for path in sorted(SNIPPETS.glob("*.toml")):
        for piece in tomllib.loads(path.read_text(encoding="utf-8"))["pieces"]:
            text, marks = unmarked(piece)
            narration = Narration(list(segments_of([text], "c1")))
            places, _ = mentions_of(words_of(narration))
            named = []
            for start, end in places:
                first, last = (narration.tokens[t].word for t in (start, end - 1))
                kind = next((kind for a, b, kind in marks if a <= last and first <= b), None)
                named.append(Named(start, end, NOTHING if kind is None else _class_of(kind)))
            if named:
                yield text, named


def _class_of(kind: str) -> str:
    action, _, status = kind.partition(" ")
    return action + BETWEEN + (status or "done")


__all__ = ["Named", "sentences", "snippets", "told_of"]
