"""The labelled narrations and the table tests as texts whose numbers the encoder learns to judge."""

from __future__ import annotations

import json
import tomllib
from dataclasses import asdict, dataclass
from pathlib import Path

from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.second_opinion.encoder import known
from dictate.mentions.second_opinion.opinion import BETWEEN
from dictate.mentions.second_opinion.surroundings import size_of
from dictate.mentions.spoken_numbers import find_numbers
from tests.benchmarks.encoder.stored import keys_of
from tests.benchmarks.second_opinion.__main__ import cases
from tests.benchmarks.second_opinion.told import HOME, TABLES, judged
from tests.narrations.labels import Labelled, all_of


@dataclass
class Number:
    """One number: its tokens [start, end), what is known of it, its class, the component of its label."""

    start: int
    end: int
    value: float
    form: str
    size: str
    written: bool
    fixed: bool
    """Whether it must stay what it is: a pronoun, or the name of a refrigerant."""
    known: list[str]
    target: str
    component: str | None
    key: int


@dataclass
class Text:
    """The tokens of a text, the tokens behind its sentences, its numbers; `told` when it is a table test."""

    name: str
    tokens: list[str]
    ends: list[int]
    numbers: list[Number]
    told: bool


def texts() -> list[Text]:
    """Return the narrations of `develop/` in the order of their names, then the sentences of the tables."""
    return [_labelled(x) for x in all_of("develop")] + _tables()


def _labelled(labelled: Labelled) -> Text:
    narration = Narration(list(segments_of(labelled.lines, "c1")))
    offsets = [0]
    for segment in narration.segments:
        offsets.append(offsets[-1] + len(segment.words))
    components = []
    for x in find_numbers(narration):
        first, last = (
            offsets[narration.tokens[t].segment] + narration.tokens[t].word for t in (x.start, x.end - 1)
        )
        rows = [r for r in labelled.readings if r.first <= last and first <= r.last]
        rows.sort(
            key=lambda r: (r.get("value") is None or abs(r.get("value") - x.value) > 1e-6, r.last - r.first)
        )
        named = rows[0].options("component") if rows else None
        components.append((named[0] or "") if named else None)
    targets = [c.quantity + BETWEEN + c.meaning for c in cases(labelled)]
    return _text(labelled.name, narration, targets, components, told=False)


def _tables() -> list[Text]:
    out = []
    for name in TABLES:
        for i, case in enumerate(tomllib.loads((HOME / f"{name}.toml").read_text(encoding="utf-8"))["case"]):
            found = judged(case)
            if found is not None and found[1]:
                narration, numbers = found
                targets = [quantity + BETWEEN + meaning for _, quantity, meaning in numbers]
                out.append(_text(f"{name} {i}", narration, targets, [None] * len(targets), told=True))
    return out


def _text(
    name: str, narration: Narration, targets: list[str], components: list[str | None], told: bool
) -> Text:
    numbers = [
        Number(
            x.start, x.end, x.value, x.form, size_of(x), x.written,
            x.pronoun or "refrigerant" in what, what, target, component, key,
        )
        for x, what, target, component, key in zip(
            find_numbers(narration), known(narration), targets, components, keys_of(name, narration),
            strict=True
        )
    ]  # fmt: skip
    return Text(name, list(narration.lowers), [end for _, end in narration.sentences], numbers, told)


def write(some: list[Text], path: Path) -> None:
    """Write texts down, for a machine that has nothing but the training code."""
    path.write_text(json.dumps([asdict(text) for text in some]), encoding="utf-8")


__all__ = ["Number", "Text", "texts", "write"]
