"""How sure each value is: `judge(mentions, segments)` fills confidence, review and candidates in place.

What a recogniser says about its own words is not enough: it is as sure of "50" as it was of "fifteen". So the
evidence of the speech stage is put together for every value that was taken: how probable its words are, how
many of the decodes have the same value, whether the second model heard it too, how far forced scoring puts it
before the likeliest confusable value, how loud the noise was, and whether the unit can be. A logistic model
turns this into the probability that the value is right. Its coefficients were fitted on voices and narrations
that no published figure is measured on; they lie in `vocabulary/confidence_model.toml` with how and when.

A value whose probability is below the threshold gets a reason in plain words, what else was heard goes into
its candidates, and the value itself stays: a person confirms it. Typed words carry no such evidence: there
only what the words themselves leave open counts.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from dictate.mentions.hearing import misfits
from dictate.mentions.narration import Narration
from dictate.mentions.plausible import fits, in_unit
from dictate.mentions.quantities import find_quantities
from dictate.mentions.spoken_numbers import find_numbers
from dictate.record.mentions import Mentions
from dictate.record.transcript import Doubt, Segment, Word
from dictate.record.visit import Candidate, Movement, Reading
from dictate.vocabulary.load import table

TEXT_DOUBT = 0.55
"""The confidence of a typed value for which the words themselves leave something open."""
_MOST_CANDIDATES = 4


@dataclass
class Evidence:
    """What is known about one value: numbers for the model, and what else was heard, in the same unit.

    `features` are those of the coefficients file; `others` are (value, wording, who heard it), the likeliest
    first. `recognised` is false for typed words.
    """

    recognised: bool = False
    features: dict[str, float] = field(default_factory=dict)
    others: list[tuple[float, str, str]] = field(default_factory=list)
    misfit: str | None = None
    full: bool = False
    """True when more than one decode gave evidence."""


def judge(mentions: Mentions, segments: Sequence[Segment]) -> None:
    """Fill `confidence`, `review` and `candidates` of every reading and movement, in place.

    Segments are those that the mentions were found in. Raises RecordError when the coefficients are missing.
    """
    for item, evidence in zip(_items(mentions), evidence_of(mentions, segments), strict=True):
        if not evidence.recognised:
            item.confidence = TEXT_DOUBT if item.review else 1.0
            continue
        model = _model("careful" if evidence.full else "fast")
        item.confidence = round(probability(model, evidence.features), 3)
        unsure = item.confidence < float(model["threshold"])
        if evidence.misfit is not None and not item.review:
            item.review = [*item.review, evidence.misfit]
        if unsure:
            # A reason of the words themselves says more than any figure; it stands first.
            item.review = [*item.review, _reason(item, evidence)]
        if item.review:
            _add_candidates(item, evidence)


def probability(model: dict[str, Any], features: dict[str, float]) -> float:
    """Return the probability, 0 to 1, that a value with these features is right."""
    total = float(model["bias"])
    for name, weight in model["weights"].items():
        total += float(weight) * features.get(name, 0.0)
    return 1 / (1 + math.exp(-max(-30.0, min(30.0, total))))


def evidence_of(mentions: Mentions, segments: Sequence[Segment]) -> list[Evidence]:
    """Return the evidence for every reading and then every movement, in order."""
    narrations: dict[tuple[int, int], Narration] = {}
    odd: dict[int, list[tuple[int, int, str]]] = {}
    return [_evidence(item, segments, narrations, odd) for item in _items(mentions)]


def _items(mentions: Mentions) -> list[Reading | Movement]:
    return [*mentions.readings, *mentions.movements]


@cache
def _model(name: str) -> dict[str, Any]:
    model: dict[str, Any] = table("confidence_model")[name]
    return model


# -------------------------------------------------------------------------------------------- evidence


def _evidence(
    item: Reading | Movement,
    segments: Sequence[Segment],
    narrations: dict[tuple[int, int], Narration],
    odd: dict[int, list[tuple[int, int, str]]],
) -> Evidence:
    at = item.at
    if at.segment is None or at.first_word is None or at.last_word is None:
        return Evidence()
    segment = segments[at.segment]
    words = segment.words[at.first_word : at.last_word + 1]
    sure = [w.probability for w in words if w.probability is not None]
    if not sure:
        return Evidence()
    numeric = [w.probability for w in words if w.probability is not None and _numeric(w.text)] or sure
    doubts = [d for d in segment.doubts if d.first_word <= at.last_word and d.last_word >= at.first_word]
    out = Evidence(recognised=True)
    out.features = {
        "log_lowest": _log(min(sure)),
        "log_mean": sum(_log(p) for p in sure) / len(sure),
        "log_lowest_number": _log(min(numeric)),
        "text_doubt": float(bool(item.review)),
        "snr": min(30.0, max(-5.0, segment.snr_db if segment.snr_db is not None else 25.0)) / 10,
        "score": max(-2.0, segment.score if segment.score is not None else -0.3),
        "unit_assumed": float(isinstance(item, Reading) and item.unit_assumed),
        "impossible": float(_impossible(item)),
    }
    out.features |= _neighbours(segment, at.first_word, at.last_word)
    heard_odd = _odd(at.segment, segment, odd)
    misfit = next((why for a, b, why in heard_odd if a <= at.last_word and b >= at.first_word), None)
    out.features["misfit"] = float(misfit is not None)
    if misfit is not None:
        out.misfit = f'heard {item.heard.strip()}; after "{misfit}" another unit is expected'
    margins = [d.margin for d in doubts if d.margin is not None]
    supports = [d.support for d in doubts if d.support is not None]
    out.features["margin"] = min(8.0, max(-4.0, min(margins))) if margins else 4.0
    out.features["close"] = float(bool(margins) and min(margins) < 1.0)
    _agreement(item, at.segment, segment, narrations, out)
    out.features["support"] = min(supports) if supports else out.features["agree"]
    _rivals(item, doubts, out)
    return out


def _neighbours(segment: Segment, first: int, last: int) -> dict[str, float]:
    """Describe the words around a value: a number that came apart leaves its traces there."""
    words = segment.words

    def lowest(span: Sequence[Word]) -> float:
        known = [_log(w.probability) for w in span if w.probability is not None]
        return min(known, default=0.0)

    numeric = [i for i in range(first, last + 1) if _numeric(words[i].text)] or [first]
    begin, end = numeric[0], numeric[-1]
    beside = [words[i].text for i in (begin - 1, end + 1) if 0 <= i < len(words) and not first <= i <= last]
    digits = "".join(re.findall(r"[\d.]", " ".join(w.text for w in words[begin : end + 1]))).strip(".")
    spoken = [w for w in words[begin : end + 1] if _numeric(w.text)]
    return {
        "before": lowest(words[max(0, begin - 2) : begin]),
        "after": lowest(words[end + 1 : end + 3]),
        "beside": float(any(_is_number(t) for t in beside)),
        "small": float(len(digits) == 1 or (not digits and len(spoken) == 1)),
        "edge": float(begin == 0 or end == len(words) - 1),
    }


_SOUNDS_LIKE_NUMBERS = frozenset({"to", "too", "for", "fore", "ate", "won", "oh", "of", "and", "hundred"})


def _is_number(text: str) -> bool:
    plain = text.lower().strip(".,;:!?")
    return (
        bool(re.search(r"\d", plain)) or plain in _SOUNDS_LIKE_NUMBERS or plain in table("numbers")["digit"]
    )


def _log(p: float) -> float:
    return math.log(max(p, 1e-3))


_NUMBER_WORDS = frozenset(
    {
        "to", "too", "for", "ate", "won", "oh", "point", "half", "quarter", "minus", "hundred", "thousand",
        "dead", "nothing",
    }
)  # fmt: skip


@cache
def _number_words() -> frozenset[str]:
    data = table("numbers")
    return _NUMBER_WORDS | set(data["digit"]) | set(data["teen"]) | set(data["ten"]) | {"zero", "nought"}


def _numeric(text: str) -> bool:
    return bool(re.search(r"\d", text)) or any(
        piece in _number_words() for piece in re.findall(r"[a-z]+", text.lower())
    )


def _impossible(item: Reading | Movement) -> bool:
    if not isinstance(item, Reading) or item.value is None:
        return False
    return not fits(item.quantity, item.point, item.value, item.unit)


def _odd(
    index: int, segment: Segment, odd: dict[int, list[tuple[int, int, str]]]
) -> list[tuple[int, int, str]]:
    """Return the word spans whose unit does not go with what announces them."""
    if index not in odd:
        narration = Narration([segment])
        spans = {q.start: q for q in find_quantities(narration)}
        odd[index] = [
            (narration.tokens[q.start].word, narration.tokens[q.end - 1].word, why)
            for start, why in misfits(narration).items()
            for q in [spans[start]]
        ]
    return odd[index]


def _same(value: float, unit: str, other: float, other_unit: str | None) -> bool:
    if other_unit is None or unit == other_unit or unit.removeprefix("delta_") == other_unit:
        return abs(value - other) <= 1e-6 * max(1.0, abs(value))
    try:
        return abs(in_unit(other, other_unit, unit) - value) <= 2e-3 * max(0.01, abs(value))
    except Exception:  # the two have no common dimension
        return False


def _values(narration: Narration, unit: str) -> list[tuple[float, str, bool]]:
    """Return the numbers of a wording: (value in `unit` where that is possible, words, unit fits)."""
    out = []
    used: set[int] = set()
    for q in find_quantities(narration):
        meanings = q.means or ((None, 1.0),)
        said = narration.heard(q.start, q.end)
        used.update(range(q.start, q.end))
        value = None
        for name, factor in meanings:
            if name is None:
                continue
            plain = unit.removeprefix("delta_")
            if name in {unit, plain} or (plain.startswith("deg") and name.startswith(("deg", "delta"))):
                value = q.value * factor
                break
            if {name, unit} <= {"lb", "oz", "g", "kg"}:
                value = in_unit(q.value * factor, name, unit)
                break
            if {name, unit} <= {"s", "min", "h"}:
                value = in_unit(q.value * factor, name, unit)
                break
        out.append((value if value is not None else q.value, said, value is not None))
    for number in find_numbers(narration):
        if number.start not in used and not number.pronoun:
            out.append((number.value, narration.heard(number.start, number.end), True))
    return out


def _agreement(
    item: Reading | Movement,
    index: int,
    segment: Segment,
    narrations: dict[tuple[int, int], Narration],
    out: Evidence,
) -> None:
    """Count which other wordings of the segment hold the same value, source by source."""
    votes: dict[str, list[tuple[float, bool]]] = {}
    if segment.source is not None:
        votes[segment.source] = [(segment.score or 0.0, True)]
    for n, other in enumerate(segment.alternatives):
        key = (index, n)
        if key not in narrations:
            narrations[key] = Narration.from_text(other.text)
        narration = narrations[key]
        if item.value is None or item.unit is None:
            plain = re.findall(r"[a-z]+", item.heard.lower())
            agrees = " ".join(plain) in " ".join(re.findall(r"[a-z]+", other.text.lower()))
        else:
            found = _values(narration, item.unit)
            agrees = any(ok and _same(item.value, item.unit, v, None) for v, _, ok in found)
            if not agrees and other.source in {"decode", "words", "witness"}:
                instead = _instead(item, segment, found)
                if instead is not None:
                    out.others.append((*instead, other.source))
        votes.setdefault(other.source, []).append((other.score or 0.0, agrees))

    def share(source: str) -> float | None:
        row = votes.get(source)
        if not row:
            return None
        top = max(score for score, _ in row)
        weights = [math.exp(8 * (score - top)) for score, _ in row]
        return sum(w for w, (_, ok) in zip(weights, row, strict=True) if ok) / sum(weights)

    decode, words, witness = share("decode"), share("words"), share("witness")
    known = [s for s in (decode, words) if s is not None]
    out.full = bool(segment.alternatives)
    out.features["agree"] = sum(known) / len(known) if known else 0.8
    out.features["agree_least"] = min(known) if known else 0.8
    out.features["witness"] = witness if witness is not None else 0.6
    everything = [s for s in (decode, words, witness) if s is not None]
    out.features["all_agree"] = float(bool(everything) and min(everything) > 0.9)


def _instead(
    item: Reading | Movement, segment: Segment, found: Sequence[tuple[float, str, bool]]
) -> tuple[float, str] | None:
    """Return the value that another wording has where the segment has this one: the nearest by order."""
    mine = _values(Narration([segment]), item.unit or "")
    places = [
        k for k, (v, _, ok) in enumerate(mine) if ok and _same(item.value or 0.0, item.unit or "", v, None)
    ]
    if not places or not found:
        return None
    here = places[0]
    after = len(mine) - 1 - here
    same_before = sum(any(abs(v - w) < 1e-9 for w, _, _ in found) for v, _, _ in mine[:here])
    index = min(same_before, len(found) - 1) if len(found) != len(mine) else here
    value, said, ok = found[
        min(index, max(0, len(found) - 1 - min(after, len(found) - 1)) if after < 1 else index)
    ]
    if not ok or any(abs(value - v) < 1e-9 for v, _, _ in mine):
        return None
    return value, said


def _rivals(item: Reading | Movement, doubts: Sequence[Doubt], out: Evidence) -> None:
    """Add what forced scoring likes nearly as well or better, and what the decodes had in this place."""
    if item.value is None or item.unit is None:
        return
    for doubt in doubts:
        for rival in doubt.rivals:
            if rival.source == "align" and (rival.score or 0.0) < -3.0:
                continue
            for value, said, ok in _values(Narration.from_text(rival.text), item.unit):
                if ok and not _same(item.value, item.unit, value, None):
                    out.others.insert(0, (value, said, rival.source))


# ------------------------------------------------------------------------------ words for a person


_WHO = {
    "decode": "it may also be",
    "words": "written out in words it is",
    "witness": "a second model heard",
    "align": "nearly as likely by its sound is",
}


def _reason(item: Reading | Movement, evidence: Evidence) -> str:
    """Say in plain words why a person should listen."""
    heard = item.heard.strip() or "this value"
    if evidence.others:
        value, said, who = evidence.others[0]
        shown = said if re.search(r"[A-Za-z]", said) else f"{value:g} {_unit(item)}".strip()
        return f'heard "{heard}"; {_WHO.get(who, "it may also be")} {shown}'
    if evidence.features.get("impossible"):
        return f'heard "{heard}"; such a value is not usual, listen again'
    if evidence.features.get("snr", 2.5) < 1.0:
        return f'heard "{heard}" in loud noise; listen again'
    return f'heard "{heard}", and the recogniser was not sure of these words; listen again'


def _unit(item: Reading | Movement) -> str:
    return (item.unit or "").removeprefix("delta_")


def _add_candidates(item: Reading | Movement, evidence: Evidence) -> None:
    known = [(c.value, c.unit) for c in item.candidates]
    added = list(item.candidates)
    for value, said, who in evidence.others:
        tidy = float(f"{value:.9g}")
        if len(added) >= _MOST_CANDIDATES:
            break
        if any(v is not None and abs(v - tidy) < 1e-9 for v, _ in known):
            continue
        known.append((tidy, item.unit))
        added.append(Candidate(value=tidy, unit=item.unit, heard=said, why=_WHO.get(who, who)))
    if len(added) > len(item.candidates):
        item.candidates = added
