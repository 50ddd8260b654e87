"""Records as no one would tell them: the rules say something or nothing, and never break."""

from __future__ import annotations

import random
from typing import Any, get_args

import pytest

from dictate.checks.completeness import refrigerant_log, warranty
from dictate.checks.run import run
from dictate.record.visit import (
    Amount,
    Conclusion,
    Equipment,
    Event,
    Movement,
    Part,
    PartAction,
    PlateValue,
    Quantity,
    Reading,
    Record,
    Role,
    Step,
    StepCode,
    StepStatus,
    Test,
    Unit,
    Visit,
)

UNITS: dict[str, tuple[str, ...]] = {
    "pressure": ("psi", "kPa", "bar", "inHg"), "vacuum": ("micron", "mbar", "Pa"), "mass": ("lb", "oz", "g", "kg"),
    "temperature": ("degF", "degC"), "duration": ("s", "min", "h"), "resistance": ("ohm",), "capacitance": ("uF",),
    "current": ("A",), "voltage": ("V",), "superheat": ("delta_degF", "delta_degC"),
    "subcooling": ("delta_degF", "delta_degC"), "temperature_difference": ("delta_degF",),
}  # fmt: skip
PARTS = (
    "compressor", "filter drier", "run capacitor", "contactor", "evaporator coil", "harvest valve coil", "coil", "thermostat",
    "defrost heater", "condensing unit", "schrader core", "gadget", "fan blade", "temperature sensor",
)  # fmt: skip
REFRIGERANTS = (None, "R-404A", "R-290", "R-22", "R-134a", "R-448A", "R-502", "R-9999", "R-744")
TYPES = (None, "ice machine", "walk-in cooler", "reach-in", "rack", "rooftop unit", "chiller", "")


def odd(seed: int) -> Record:
    """Make a record at random from the record's own words; values may be missing, nil, huge or open."""
    rnd = random.Random(seed)
    machines: list[str | None] = [None, *[f"u{k}" for k in range(rnd.randint(0, 2))]]

    def some(count: int) -> range:
        return range(rnd.randint(0, count))

    def value() -> float | None:
        return rnd.choice([None, 0.0, 0.5, 1.0, 9.5, 250.0, 500.0, 1200.0, -20.0, 1e6])

    def amount(*units: str) -> Amount | None:
        return rnd.choice([None, Amount(value=rnd.choice([0.0, 40.0, 250.0, 900.0]), unit=rnd.choice(units))])

    def reading(k: int) -> Reading:
        quantity = rnd.choice(list(UNITS))
        keys: dict[str, Any] = {"quantity": quantity, "unit": rnd.choice(UNITS[quantity])}
        if quantity == "resistance" and rnd.random() < 0.3:
            keys["state"] = "open"
        else:
            keys["value"] = value()
        return Reading(
            id=f"r{k}", equipment=rnd.choice(machines), role=rnd.choice(get_args(Role)),
            component=rnd.choice([None, *PARTS]), point=rnd.choice([None, "suction", "common-run", "product"]),
            stage=rnd.choice([None, "as_found", "as_left"]), relation=rnd.choice(["=", "<", ">", "~"]),
            reference="vacuum_depth" if keys["unit"] == "inHg" else None, review=rnd.choice([[], ["in doubt"]]), **keys,
        )  # fmt: skip

    readings = [reading(k) for k in some(12)]
    ids = [r.id for r in readings]
    return Record(
        visit=Visit(id="v", jurisdiction=rnd.choice([None, "US", "CA"]), date=rnd.choice([None, "2026-03-02", "soon"])),
        transcript=[{"clip": "c1", "text": rnd.choice(["", "Vented the charge, it was flat.", "Triple evac. Left it off."])}],
        equipment=[
            Equipment(
                id=m, type=rnd.choice(TYPES), refrigerant=rnd.choice(REFRIGERANTS),
                plate=[PlateValue(quantity="mass", value=rnd.choice([0.0, 1.0, 40.0]), unit="lb") for _ in some(2)],
            )
            for m in machines if m
        ],
        readings=readings,
        refrigerant=[
            Movement(
                id=f"m{k}", equipment=rnd.choice(machines), direction=rnd.choice(["recovered", "charged"]),
                refrigerant=rnd.choice(REFRIGERANTS), value=value(), unit=rnd.choice([None, "lb", "oz", "g", "kg"]),
            )
            for k in some(4)
        ],
        steps=[
            Step(
                id=f"s{k}", equipment=rnd.choice(machines), step=rnd.choice(get_args(StepCode)),
                status=rnd.choice(get_args(StepStatus)), component=rnd.choice([None, *PARTS]),
            )
            for k in some(14)
        ],
        parts=[
            Part(id=f"p{k}", equipment=rnd.choice(machines), name=rnd.choice(PARTS), action=rnd.choice(get_args(PartAction)))
            for k in some(4)
        ],
        events=[
            Event(id=f"e{k}", equipment=rnd.choice(machines), event=rnd.choice(["started", "did not start", "tripped"]))
            for k in some(3)
        ],
        tests=[
            Test(
                id=f"t{k}", equipment=rnd.choice(machines), kind=kind, attempt=rnd.randint(1, 3),
                start=amount(*units), end=amount(*units), reached=amount(*units), minutes=rnd.choice([None, 0.0, 10.0]),
                start_temperature=amount("degF", "degC"), end_temperature=amount("degF", "degC"),
                result=rnd.choice([None, "held", "failed"]), readings=rnd.sample(ids, min(len(ids), 3)),
            )
            for k in some(4)
            for kind, units in [rnd.choice([("pressure_test", ("psi", "bar", "kPa", "inHg")), ("evacuation", ("micron", "mbar", "inHg"))])]
        ],
        conclusions=[Conclusion(id="c1", text="bad", component=rnd.choice(PARTS)) for _ in some(1)],
    )  # fmt: skip


@pytest.mark.parametrize("start", range(0, 400, 50))
def test_rules_and_views_never_break(start: int) -> None:
    for seed in range(start, start + 50):
        record = odd(seed)
        for check in run(record):
            assert check.message and check.source, (seed, check.rule)
            assert check.outcome != "missing" or check.question, (seed, check.rule)
            assert all(a.value == a.value for a in check.computed.values()), (seed, check.rule)
        for field in [*warranty(record), *refrigerant_log(record)]:
            assert field.name and (field.present or not field.value), (seed, field)


def test_the_words_used_here_are_those_of_the_record() -> None:
    assert set(UNITS) <= set(get_args(Quantity))
    assert {u for units in UNITS.values() for u in units} <= set(get_args(Unit))
