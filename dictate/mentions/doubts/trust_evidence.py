"""All evidence on whether a value that was taken is right, by name: `evidence(case, found)`.

    quantity X, state X, form X     what was taken, and how the number was said
    bare, written, zero, ...        what else holds of it, 1 where it does
    reason X                        a reader took it on soft evidence, and said so
    doubt X                         the look X (`looks.py`) found something; `doubts` counts looks and reasons
    net X, encoder X, both of       what the judges of the second opinion say, as logarithms of odds (`ODDS`):
                                    `of` a measured value of its quantity, `fit` a measured value that may
                                    have its unit, `quantity` a value of its quantity, `now` a measured value,
                                    `none` no value, `retracted`, `not now`; the entropy of the encoder
    weighed                         the odds of its quantity where all evidence was weighed (`weighing.py`)

`trust_terms.py` makes of it what is weighed. The names stand in data that was kept for training: a new piece
of evidence needs a new name, and an old name keeps its meaning.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from dictate.mentions.doubts.judges import NONE, Judge, judged
from dictate.mentions.doubts.second_look import weighed
from dictate.mentions.doubts.talk import DIFFERENCES, Case
from dictate.mentions.second_opinion import opinions
from dictate.mentions.told_outright import is_told_outright
from dictate.mentions.whose.taken import (
    BY_ALL_EVIDENCE,
    BY_WORDS_ONLY,
    FAR_FROM_LABEL,
    LOOSE,
    OTHERWISE_BY_WORDS,
    POSSIBLE,
    READ_NOW_BY_WORDS,
)

SOFT = {
    "loose": LOOSE, "evidence": BY_ALL_EVIDENCE, "far": FAR_FROM_LABEL, "words": BY_WORDS_ONLY,
    "now": READ_NOW_BY_WORDS, "q": OTHERWISE_BY_WORDS,
}  # fmt: skip
"""The reasons of the readers that are evidence only, by a piece of their words; the first that fits."""
SOFT_OF_FEW_WORDS = frozenset({"loose", "evidence", "far"})
"""Those that are evidence only in talk of a few words too: the judges know too little of it."""
_LEAST = 1e-5


def soft_kind(reason: str) -> str | None:
    """Return which kind of soft reason of the readers this is, None when it is no soft one."""
    return next((kind for kind, piece in SOFT.items() if piece in reason), None)


def _told_outright(case: Case) -> bool:
    """Tell whether the frame of a bare value says what it is, so that the words further off weigh nothing."""
    return case.number is not None and is_told_outright(case.talk.n, case.number.start)


def evidence(case: Case, reasons: Iterable[str], looks: Iterable[str]) -> dict[str, float]:
    """Return all evidence; `reasons` are the kinds of the readers' soft reasons, `looks` what doubts it."""
    r, number = case.reading, case.number
    seen = {f"quantity {r.quantity}": 1.0, f"state {r.state}": 1.0}
    kinds, doubts = list(reasons), list(looks)
    seen.update(dict.fromkeys((f"reason {kind}" for kind in kinds), 1.0))
    seen.update(dict.fromkeys((f"doubt {name}" for name in doubts), 1.0))
    seen["doubts"] = float(len(kinds) + len(doubts))
    for name, holds in (
        ("bare", case.bare), ("zero", r.value == 0), ("puts right", bool(r.retracts)),
        ("no place", not r.component and not r.point), ("told outright", _told_outright(case)),
        ("candidates", bool(r.candidates)), ("written", number is not None and number.written),
    ):  # fmt: skip
        if holds:
            seen[name] = 1.0
    if number is not None:
        seen[f"form {number.form}"] = 1.0
    said = judged(case.talk.n).get(number.start) if number is not None else None
    if said is not None and r.retracts and number is not None and number.value != r.value:
        said = None  # of last digits said again ("no, oh six") there is no opinion
    if number is None or said is None:
        seen["no opinion"] = 1.0
        return seen
    net, encoder = said
    _tell(seen, "net", net, case)
    if encoder is None:
        seen["no encoder"] = 1.0
    else:
        _tell(seen, "encoder", encoder, case)
        seen["encoder entropy"] = encoder.entropy
    seen["both of"] = _odds(opinions(case.talk.n)[number.start].of(r.quantity))
    shares = weighed(case)
    if shares is not None:
        seen["weighed"] = _odds(shares.get(r.quantity, 0.0))
    return seen


def _tell(seen: dict[str, float], who: str, judge: Judge, case: Case) -> None:
    r = case.reading
    seen[f"{who} of"] = _odds(judge.measured.get(r.quantity, 0.0))
    seen[f"{who} fit"] = _odds(of_its_unit(judge, case))
    seen[f"{who} quantity"] = _odds(judge.quantities.get(r.quantity, 0.0))
    seen[f"{who} now"] = _odds(judge.now)
    seen[f"{who} none"] = _odds(judge.quantities.get(NONE, 0.0))
    for meaning, share in judge.meanings.items():
        seen[f"{who} {meaning}"] = _odds(share)


def of_its_unit(judge: Judge, case: Case) -> float:
    """Return the share of a measured value of any quantity that may have the unit of the reading.

    A unit that was said is right whatever its quantity is called, but degrees are said of levels and of
    differences.
    """
    r = case.reading
    if r.unit in {"degF", "degC"}:
        return judge.measured.get("temperature", 0.0)
    if r.unit.startswith("delta_"):
        return sum(judge.measured.get(quantity, 0.0) for quantity in DIFFERENCES)
    if not case.bare:
        return judge.now
    return sum(judge.measured.get(quantity, 0.0) for quantity in {r.quantity, *POSSIBLE.get(r.unit, ())})


def _odds(chance: float) -> float:
    """Return the natural logarithm of the odds."""
    kept = _LEAST if chance < _LEAST else 1 - _LEAST if chance > 1 - _LEAST else chance
    return math.log(kept / (1 - kept))


__all__ = ["SOFT", "SOFT_OF_FEW_WORDS", "evidence", "of_its_unit", "soft_kind"]
