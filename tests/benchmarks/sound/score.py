"""Compare what was heard and taken with the labels of the narration that was spoken.

A transcript has other words than the narration, so a value found belongs to a label by its time: the label's
sentence is spoken from one known second to another. A value that is no label's is an invention, unless the
same extractor takes it from the true words of that sentence as well (then hearing is not to blame), or it
repeats a label of that sentence.
"""

from __future__ import annotations

import json
import math
import random
from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

from dictate.record.transcript import Segment
from dictate.record.visit import Movement, Reading
from tests.benchmarks.text.found import name as trade_name
from tests.benchmarks.text.score import same_value
from tests.narrations.labels import Labelled, Row

_BEFORE, _AFTER = 1.0, 1.5  # seconds around a sentence in which its values may be placed by the recogniser


@dataclass
class Found:
    """One value that came out: `outcome` is right, wrong (for a label), invented, or text (not a mishearing)."""

    heard: str
    value: float | None
    unit: str | None
    quantity: str
    outcome: str
    confidence: float
    review: list[str]
    start_s: float
    label: str = ""
    what: bool = False
    candidates: list[float] = field(default_factory=list)
    features: dict[str, float] = field(default_factory=dict)
    full: bool = False


@dataclass
class Scored:
    """One sound: the values found, and for each label whether its value came out right."""

    sound: str
    mode: str
    found: list[Found]
    labels: list[dict[str, Any]]
    seconds: float = 0.0
    duration: float = 0.0

    def as_dict(self) -> dict[str, Any]:
        """Return it as plain data."""
        return asdict(self)


@dataclass(frozen=True)
class _Wanted:
    row: Row
    sentence: int
    time: float
    movement: bool


def wanted(labelled: Labelled, spans: Sequence[tuple[float, float, str]]) -> list[_Wanted]:
    """Return the labels that count, each with its sentence and the second at which it is spoken."""
    starts: list[int] = []
    count = 0
    for _, _, text in spans:
        starts.append(count)
        count += len(text.split())
    if count != len(labelled.words):
        raise ValueError(f"{labelled.name}: {count} words spoken, {len(labelled.words)} in the text")
    out = []
    for rows, movement in ((labelled.readings, False), (labelled.movements, True)):
        for row in rows:
            middle = (row.first + row.last + 1) / 2
            sentence = max(i for i, s in enumerate(starts) if s <= row.first)
            begin, end, text = spans[sentence]
            share = (middle - starts[sentence]) / max(1, len(text.split()))
            out.append(_Wanted(row, sentence, begin + share * (end - begin), movement))
    return out


def take(segments: Sequence[Segment]) -> tuple[list[Reading | Movement], list[Any]]:
    """Run the extractor and the confidence over segments; return the values with their evidence."""
    from dictate.mentions import find
    from dictate.mentions.confidence import evidence_of, judge

    mentions = find(segments)
    evidence = evidence_of(mentions, segments)
    judge(mentions, segments)
    return [*mentions.readings, *mentions.movements], evidence


@cache
def _from_text(path_name: str, lines: tuple[str, ...]) -> list[tuple[float | None, str | None, str]]:
    """Return (value, unit, heard) of everything the extractor takes from the true words."""
    from dictate.mentions.narration import segments_of

    items, _ = take(list(segments_of(lines, "c1")))
    return [(i.value, i.unit, i.heard) for i in items]


def _right(item: Reading | Movement, w: _Wanted) -> bool:
    row = w.row
    if w.movement:
        return (
            isinstance(item, Movement)
            and item.direction == row.get("direction")
            and same_value(item.value, item.unit, row.get("value"), row.get("unit"))
        )
    if not isinstance(item, Reading):
        return False
    if row.get("state") == "open":
        return item.state == "open"
    return item.state == "value" and same_value(item.value, item.unit, row.get("value"), row.get("unit"))


def _what(item: Reading | Movement, w: _Wanted) -> bool:
    """Tell whether it is right of what: the quantity, the component and the point, as far as labelled."""
    if isinstance(item, Movement) or w.movement:
        return isinstance(item, Movement) == w.movement
    row = w.row
    options = row.options("component")
    if options is not None and trade_name(item.component) not in [trade_name(o) for o in options]:
        return False
    points = row.options("point")
    if points is not None and (item.point or None) not in points:
        return False
    return item.quantity == row.get("quantity")


def _kind(w: _Wanted) -> str:
    return str(w.row.get("direction")) if w.movement else str(w.row.get("quantity"))


def _of_kind(item: Reading | Movement) -> str:
    return item.direction if isinstance(item, Movement) else item.quantity


def score(
    sound: str,
    mode: str,
    labelled: Labelled,
    spans: Sequence[tuple[float, float, str]],
    segments: Sequence[Segment],
) -> Scored:
    """Score one sound."""
    items, evidence = take(segments)
    labels = wanted(labelled, spans)
    times = [_time(i, segments) for i in items]
    pairs: dict[int, int] = {}
    options = []
    for k, w in enumerate(labels):
        begin, end, _ = spans[w.sentence]
        for j, item in enumerate(items):
            if not begin - _BEFORE <= times[j] <= end + _AFTER:
                continue
            right = _right(item, w)
            alike = _of_kind(item) == _kind(w) or (
                w.movement and isinstance(item, Reading) and item.quantity == "mass"
            )
            if not right and (not alike or abs(times[j] - w.time) > 4):
                continue
            merit = 100.0 * right + 20 * (right and _what(item, w)) + 6 * alike - abs(times[j] - w.time)
            merit -= 1.0 * bool(w.row.get("optional"))
            options.append((-merit, k, j))
    taken: set[int] = set()
    for _, k, j in sorted(options):
        if k not in pairs and j not in taken:
            pairs[k] = j
            taken.add(j)
    by_item = {j: k for k, j in pairs.items()}
    found = []
    typed = _from_text(labelled.name, tuple(labelled.lines))
    sentence_words = [" ".join(t.split()) for _, _, t in spans]
    for j, (item, e) in enumerate(zip(items, evidence, strict=True)):
        k = by_item.get(j)
        label = ""
        what = False
        near = [i for i, (a, b, _) in enumerate(spans) if a - _BEFORE <= times[j] <= b + _AFTER]
        told = any(
            _alike(item, value, unit) and any(heard.strip(" .,") in sentence_words[i] for i in near)
            for value, unit, heard in typed
        )
        if k is not None:
            w = labels[k]
            label = str(w.row.get("heard"))
            right = _right(item, w)
            # The same value from the true words: the extractor's mistake, not one of hearing.
            outcome = "right" if right else "text" if told else "wrong"
            what = right and _what(item, w)
        else:
            repeats = any(_right(item, w) for w in labels if w.sentence in near)
            outcome = "text" if repeats or told else "invented"
        found.append(
            Found(
                item.heard, item.value, item.unit, _of_kind(item), outcome, item.confidence, list(item.review),
                round(times[j], 2), label, what,
                [c.value for c in item.candidates if c.value is not None], e.features, e.full,
            )
        )  # fmt: skip
    rows = []
    for k, w in enumerate(labels):
        j = pairs.get(k)
        state = "missed" if j is None else ("right" if _right(items[j], w) else "wrong")
        rows.append(
            {
                "heard": w.row.get("heard"),
                "value": w.row.get("value"),
                "unit": w.row.get("unit"),
                "optional": bool(w.row.get("optional") or w.row.get("doubt")),
                "role": w.row.get("role", "measured"),
                "kind": _kind(w),
                "state": state,
                "what": j is not None and state == "right" and _what(items[j], w),
                "flagged": j is not None and bool(items[j].review),
                "found": j,
            }
        )
    return Scored(sound, mode, found, rows)


def from_text(labelled: Labelled) -> Scored:
    """Score the same extractor on the true words, sentence by sentence: what hearing perfectly would give."""
    from dictate.mentions.narration import segments_of

    segments = []
    spans = []
    at = 0.0
    for segment in segments_of(labelled.lines, "c1"):
        # A word a second: the times only serve to find the label.
        words = [
            w.model_copy(update={"start_s": at + i, "end_s": at + i + 0.9})
            for i, w in enumerate(segment.words)
        ]
        segments.append(segment.model_copy(update={"words": words, "start_s": at, "end_s": at + len(words)}))
        spans.append((at, at + len(words), segment.text))
        at += len(words) + 3
    return score(labelled.name, "text", labelled, spans, segments)


def _alike(item: Reading | Movement, value: float | None, unit: str | None) -> bool:
    if item.value is None or value is None:
        return item.value is None and value is None
    return unit is not None and same_value(item.value, item.unit, value, unit)


def _time(item: Reading | Movement, segments: Sequence[Segment]) -> float:
    at = item.at
    if at.start_s is not None and at.end_s is not None:
        return (at.start_s + at.end_s) / 2
    if at.segment is not None:
        return segments[at.segment].start_s or 0.0
    return 0.0


# --------------------------------------------------------------------------------------------- figures


@dataclass
class Figures:
    """Sums over sounds; every share comes with its 95 % interval."""

    labels: int = 0
    right: int = 0
    right_what: int = 0
    missed: int = 0
    found: int = 0
    unflagged: int = 0
    wrong: int = 0
    accepted_wrong: int = 0
    right_flagged: int = 0
    auroc: float = math.nan
    candidate_right: int = 0
    seconds: float = 0.0
    duration: float = 0.0


def figures(rows: Iterable[Scored]) -> Figures:
    """Sum up."""
    f = Figures()
    good: list[float] = []
    bad: list[float] = []
    for s in rows:
        f.seconds += s.seconds
        f.duration += s.duration
        for label in s.labels:
            if label["optional"] or label["role"] == "retracted":
                continue
            f.labels += 1
            f.right += label["state"] == "right"
            f.right_what += label["what"]
            f.missed += label["state"] == "missed"
        for item in s.found:
            if item.outcome == "text":
                continue
            right = item.outcome == "right"
            f.found += 1
            f.unflagged += not item.review
            f.wrong += not right
            f.accepted_wrong += not right and not item.review
            f.right_flagged += right and bool(item.review)
            (good if right else bad).append(item.confidence)
    f.auroc = auroc(good, bad)
    return f


def auroc(good: Sequence[float], bad: Sequence[float]) -> float:
    """Return the chance that a right value has a higher confidence than a wrong one; ties count half."""
    if not good or not bad:
        return math.nan
    ranked = sorted([(g, 1) for g in good] + [(b, 0) for b in bad])
    total, i = 0.0, 0
    below = 0
    while i < len(ranked):
        j = i
        while j < len(ranked) and ranked[j][0] == ranked[i][0]:
            j += 1
        same_good = sum(k for _, k in ranked[i:j])
        same_bad = (j - i) - same_good
        total += same_good * (below + same_bad / 2)
        below += same_bad
        i = j
    return total / (len(good) * len(bad))


def wilson(right: int, of: int, z: float = 1.959964) -> tuple[float, float]:
    """Return the 95 % interval of a share (Wilson 1927)."""
    if of == 0:
        return 0.0, 1.0
    p = right / of
    middle = (p + z * z / (2 * of)) / (1 + z * z / of)
    half = z / (1 + z * z / of) * math.sqrt(p * (1 - p) / of + z * z / (4 * of * of))
    return max(0.0, middle - half), min(1.0, middle + half)


def bootstrap(rows: Sequence[Scored], statistic: str, rounds: int = 400) -> tuple[float, float]:
    """Return the 95 % interval of `auroc` by drawing sounds anew: values of one sound go together."""
    rng = random.Random(7)
    values = []
    for _ in range(rounds):
        drawn = [rows[rng.randrange(len(rows))] for _ in rows]
        value = getattr(figures(drawn), statistic)
        if not math.isnan(value):
            values.append(value)
    if not values:
        return math.nan, math.nan
    values.sort()
    return values[int(0.025 * len(values))], values[int(0.975 * len(values)) - 1]


def spans_of(folder: Path, job: str) -> list[tuple[float, float, str]]:
    """Read when each sentence of a job is spoken."""
    return [(a, b, t) for a, b, t in json.loads((folder / f"{job}.where.json").read_text(encoding="utf-8"))]
