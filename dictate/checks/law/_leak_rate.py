"""What a visit tells of a leak rate: what was added, the full charge, the time since the last addition."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from dictate.checks.facts import Facts
from dictate.checks.leak_law import Scope, annualizing, full_charge_lb, scope, sector, trigger
from dictate.checks.words import Said, phrases
from dictate.checks.work import Job, jobs, total

_UNITS = {"day": 1.0, "week": 7.0, "month": 30.4, "year": 365.0}
_SMALL = {
    "a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
    "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15,
    "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19, "twenty": 20, "thirty": 30, "forty": 40,
    "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90, "hundred": 100, "couple": 2,
}  # fmt: skip


@dataclass
class LeakRate:
    """One addition to a circuit. Masses in lb, rates in per cent a year; None where it cannot be told.

    `least` is what the rate is at least: the annualizing formula with 365 days, its longest span.
    """

    job: Job
    added_lb: float
    full_lb: float | None
    basis: str
    days: float | None
    scope: Scope
    limit: float | None
    things: list[Said]

    @property
    def least(self) -> float | None:
        """Return the rate with 365 days."""
        return annualizing(self.added_lb, self.full_lb, None) if self.full_lb else None

    @property
    def rate(self) -> float | None:
        """Return the annualized rate; None when the days or the full charge are not known."""
        if self.full_lb is None or self.days is None:
            return None
        return annualizing(self.added_lb, self.full_lb, self.days)


def leak_rates(facts: Facts) -> Iterator[LeakRate]:
    """Yield the additions of refrigerant that replace what leaked: charged less recovered.

    A first fill after a new installation or a retrofit is none.
    """
    for job in jobs(facts):
        charged = total(job.movements("charged"), "lb")
        if charged is None or job.new_machine or job.phrases("retrofit"):
            continue
        out = total(job.movements("recovered"), "lb") or 0.0
        added = charged - out if job.movements("recovered") else charged
        if added <= 0:
            continue
        full = full_charge_lb(job)
        if job.full_charge and not job.movements("recovered") and not job.found_empty:
            continue  # what came out is not known, so neither is what leaked
        where = sector(job.equipment)
        yield LeakRate(
            job=job,
            added_lb=added,
            full_lb=full[0] if full else None,
            basis=full[1] if full else "",
            days=days_since_addition(job),
            scope=scope(job.refrigerant or job.any_refrigerant, full[0] if full else None, where),
            limit=trigger(where),
            things=[*job.movements("charged")],
        )


def days_since_addition(job: Job) -> float | None:
    """Return how many days ago refrigerant was added before, where it was said; None otherwise.

    >>> from dictate.record.visit import Record, Visit
    >>> said = [{"clip": "c1", "text": "We added six pounds ninety two days ago."}]
    >>> days_since_addition(Job(Facts(Record(visit=Visit(id="v"), transcript=said)), None, True))
    92.0
    """
    for said in phrases(job.record, "added_before"):
        for match in re.finditer(r"((?:\w+[ -])+)(day|week|month|year)s?\b", said.heard):
            number = _number(match.group(1).replace("-", " ").split())
            if number is not None:
                return number * _UNITS[match.group(2)]
    return None


def _number(tokens: list[str]) -> float | None:
    """Read the number at the end of some words ("pounds ninety two" is 92); None when there is none."""
    tail: list[str] = []
    for token in reversed(tokens):
        if token in _SMALL or token == "and" or re.fullmatch(r"\d+(?:\.\d+)?", token):
            tail.insert(0, token)
        elif token in ("of", "or", "so", "about"):
            continue
        else:
            break
    if not tail:
        return None
    total_ = 0.0
    for token in tail:
        if token == "and":
            continue
        if re.fullmatch(r"\d+(?:\.\d+)?", token):
            total_ = float(token)
        elif token == "hundred":
            total_ = max(total_, 1.0) * 100
        else:
            total_ += _SMALL[token]
    return total_ or None
