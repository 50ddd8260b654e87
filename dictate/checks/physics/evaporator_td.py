"""Box air against the saturated suction temperature."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, value_in
from dictate.checks.physics._cycle import BOX, moments
from dictate.checks.rule import Finding, ok, rule, unsure

WIDE = {"walk": (4.0, 30.0), "reach": (6.0, 45.0)}
ANY = (2.0, 60.0)


@rule(
    id="evaporator.td-out-of-range",
    checks="Box air less saturated suction is usual for the kind of box (walk-in about 8 to 12 °F, "
    "reach-in 15 "
    "to 25), and never negative.",
    applies="box or return air and saturated suction (or suction pressure and refrigerant) were said",
    source="Usual evaporator temperature differences by kind of box; a box cannot be colder than what "
    "cools it",
    tag="common practice",
    question="Is the coil clear of ice and dirt, do the fans run, and had it pulled down?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for moment in moments(facts):
        machine = facts.machine(moment.equipment)
        kind = (machine.type or "").lower() if machine is not None else ""
        if any(
            w in kind
            for w in (
                "ice",
                "split",
                "rooftop",
                "heat pump",
                "chiller",
                "condition",
                "dispenser",
                "humidif",
                "dryer",
            )
        ):
            continue
        evaporating = moment.evaporating()
        box = moment.last(moment.temperatures(*BOX))
        if evaporating is None or box is None:
            continue
        sst, reading = evaporating
        td = value_in(box, "degF") - sst
        low, high = next((r for word, r in WIDE.items() if word in kind), ANY)
        # A warm box that is still pulling down has a wide difference, which says nothing.
        if moment.stage == "as_found":
            high = 999.0
        computed = {"temperature difference": (td, "delta_degF"), "saturated suction": (sst, "degF")}
        text = (
            f"{cite(box)} less saturated suction {facts.degrees(sst)} ({cite(reading)}): "
            f"{facts.difference(td)}"
        )
        if td < 0:
            yield unsure(
                f"{text}: the box cannot be colder than what cools it.",
                reading,
                box,
                computed=computed,
                question="Was it running when both were read, and is the refrigerant right?",
            )
        elif td < low or td > high:
            yield unsure(f"{text}: not usual for a {kind or 'box'}.", reading, box, computed=computed)
        else:
            yield ok(f"{text}.", reading, box, computed=computed)
