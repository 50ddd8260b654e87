"""Three lines or three legs that were measured together."""

from __future__ import annotations

from dictate.checks.facts import Facts, exact, phrases, value_in
from dictate.record.visit import Reading

LINES = ("L1-L2", "L2-L3", "L1-L3")
LEGS = ("L1", "L2", "L3")


def in_threes(
    facts: Facts, quantity: str, names: tuple[str, ...], *, unnamed: bool = False
) -> list[list[Reading]]:
    """Return sets of three readings of one machine, part and side of the repair, in the order of `names`.

    A set begins again when a name is read again. With `unnamed`, where the words say that there are three
    phases, exactly three like readings right after one another are a set as well ("legs are two oh five, two
    oh nine and two oh four").
    """
    sets: list[list[Reading]] = []
    open_: dict[tuple[str | None, str | None, str | None], dict[str, Reading]] = {}
    for r in facts.readings(quantity, point=names):
        if not exact(r) or r.derived or r.state != "value" or r.point is None:
            continue
        key = (r.equipment, None if quantity == "voltage" else r.component, r.stage)
        current = open_.setdefault(key, {})
        if r.point in current:
            current.clear()
        current[r.point] = r
        if len(current) == len(names):
            sets.append([current[n] for n in names])
            open_[key] = {}
    if unnamed and facts.said(*phrases("three_phase")):
        taken = {id(r) for s in sets for r in s}
        sets += [s for s in _runs(facts, quantity) if not any(id(r) in taken for r in s)]
    return sets


def _of_one(one: Reading, other: Reading) -> bool:
    """True when two readings are of one machine, part and side of the repair."""
    return (one.equipment, one.component, one.stage) == (other.equipment, other.component, other.stage)


def _runs(facts: Facts, quantity: str) -> list[list[Reading]]:
    """Return the runs of exactly three readings of one kind that follow one another and look alike."""
    runs: list[list[Reading]] = [[]]
    for r in facts.readings():
        last = runs[-1][-1] if runs[-1] else None
        fits = r.quantity == quantity and exact(r) and r.state == "value" and not r.derived
        same = last is not None and (r.equipment, r.component, r.stage) == (
            last.equipment,
            last.component,
            last.stage,
        )
        if fits and (last is None or (same and facts.one_sentence(last, r))):
            runs[-1].append(r)
        else:
            runs.append([r] if fits else [])
    found = []
    for run in runs:
        # Legs have no other names of their own, and are of one size; three fans are three things.
        plain = all(r.point in (None, "line", "load", *LINES) and r.which is None for r in run)
        if (
            len(run) != 3
            or not plain
            or "fan" in (run[0].component or "")
            or len({r.point for r in run} - {None}) > 1
        ):
            continue
        values = [value_in(r, run[0].unit) for r in run]
        if min(values) > 0 and max(values) < 1.4 * min(values) and len({r.at.segment for r in run}) == 1:
            found.append(run)
    return found
