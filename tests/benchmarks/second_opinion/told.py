"""The sentences of the table tests of readings, as cases to learn from beside the narrations.

What the readers take from them is what the tests hold them to. They are short, and many stand at the border of
two roles, of which the narrations have fewer.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from dictate.mentions import find
from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.second_opinion import MEASURED, NONE, features
from dictate.record.mentions import Mentions

TABLES = (
    "corrections", "published", "read_or_not", "readings", "roles", "taken_back_or_not", "values_told",
    "where_and_when",
)  # fmt: skip
HOME = Path(__file__).parents[2] / "mentions" / "cases"

Told = tuple[dict[str, float], str, str]
"""What stands around a number, its quantity, and how it is meant."""


def told() -> list[Told]:
    """Return the numbers of all sentences of the tables."""
    out: list[Told] = []
    for name in TABLES:
        for case in tomllib.loads((HOME / f"{name}.toml").read_text(encoding="utf-8"))["case"]:
            found = judged(case)
            out += found[1] if found is not None else []
    return out


def _as_the_test_wants(case: dict[str, Any], mentions: Mentions) -> bool:
    """Tell whether the readers take what the test expects; a mistake of theirs must not be learned."""
    values = [f"{r.value:.10g}" for r in mentions.readings if r.value is not None]
    for wanted in case.get("roles", case.get("told", ())):
        value = wanted.split()[0]
        if value != "open" and value not in values:
            return False
    units = {f"{r.value:.10g} {r.unit}" for r in mentions.readings if r.value is not None}
    if any(" ".join(w.split()[:2]) not in units for w in case.get("told", ()) if w[0].isdigit()):
        return False
    rows = case.get("readings", ())
    return all("value" not in r or f"{r['value']:.10g} {r['unit']}" in units for r in rows)


def judged(case: dict[str, Any]) -> tuple[Narration, list[Told]] | None:
    """Return the text of a case with its numbers; None when the readers take it otherwise than they should."""
    lines = [line for line in case["text"].strip().splitlines() if line.strip()]
    segments = list(segments_of(lines, "c1"))
    narration, mentions = Narration(segments), find(segments)
    if not _as_the_test_wants(case, mentions):
        return None
    offsets = [0]
    for segment in segments:
        offsets.append(offsets[-1] + len(segment.words))

    def word(token: int) -> int:
        return offsets[narration.tokens[token].segment] + narration.tokens[token].word

    return narration, [
        (seen, *_taken_for(word(number.start), word(number.end - 1), number.value, mentions, offsets))
        for number, seen in features(narration)
    ]


def _taken_for(
    first: int, last: int, value: float, mentions: Mentions, offsets: list[int]
) -> tuple[str, str]:
    def touches(segment: int | None, begin: int | None, end: int | None) -> bool:
        if segment is None or begin is None or end is None:
            return False
        return offsets[segment] + begin <= last and first <= offsets[segment] + end

    for r in mentions.readings:
        if r.value is None or not touches(r.at.segment, r.at.first_word, r.at.last_word):
            continue
        # Kilohms, megohms and hours are kept in ohms and minutes.
        if any(abs(abs(r.value) - abs(value) * factor) < 1e-6 for factor in (1, 1e3, 1e6, 60)):
            return r.quantity, r.role if r.role in {MEASURED, "retracted"} else "not now"
    if any(touches(m.at.segment, m.at.first_word, m.at.last_word) for m in mentions.movements):
        return "movement", "movement"
    return NONE, NONE


__all__ = ["HOME", "TABLES", "Told", "judged", "told"]
