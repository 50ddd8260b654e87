"""Build a record from a few lines of TOML, for the cases of the rules."""

from __future__ import annotations

from typing import Any

from dictate.record.visit import (
    Conclusion,
    Equipment,
    Event,
    Labour,
    Movement,
    Part,
    Reading,
    Record,
    Remark,
    Step,
    Test,
    Visit,
)

PARTS_OF_A_RECORD = {
    "visit", "equipment", "readings", "steps", "refrigerant", "parts", "events", "tests", "conclusions",
    "complaint", "recommendations", "remarks", "labour", "said",
}  # fmt: skip
"""The keys of a case that describe the record; `said` is the transcript, a list of sentences."""

DEFAULT_UNIT = {
    "voltage": "V", "current": "A", "resistance": "ohm", "capacitance": "uF", "power": "W", "frequency": "Hz",
    "pressure": "psi", "vacuum": "micron", "temperature": "degF", "temperature_difference": "delta_degF",
    "superheat": "delta_degF", "subcooling": "delta_degF", "duration": "min", "mass": "lb",
}  # fmt: skip


def _numbered(prefix: str, number: int, given: dict[str, Any]) -> dict[str, Any]:
    """Give a thing its id, and turn `at_s` (seconds) into a place in clip c1."""
    made = {"id": f"{prefix}{number}", **given}
    seconds = made.pop("at_s", None)
    if seconds is not None:
        made["at"] = {"clip": "c1", "start_s": seconds, "end_s": seconds + 1}
    return made


def record(case: dict[str, Any]) -> Record:
    """Make the record that a case describes. Ids are r1, s1, m1, p1, e1 ... in the order of listing."""
    readings = []
    for number, given in enumerate(case.get("readings", []), start=1):
        made = _numbered("r", number, given)
        made.setdefault("unit", DEFAULT_UNIT.get(made["quantity"]))
        if made["quantity"] == "pressure":
            made.setdefault("reference", "gauge")
        if made["quantity"] == "vacuum":
            made.setdefault("reference", "absolute")
        readings.append(Reading(**made))
    steps = []
    for number, given in enumerate(case.get("steps", []), start=1):
        given = {"step": given} if isinstance(given, str) else given
        steps.append(Step(**{"status": "done", **_numbered("s", number, given)}))
    said = case.get("said", [])
    return Record(
        visit=Visit(**{"id": "v1", **case.get("visit", {})}),
        transcript=[{"clip": "c1", "text": text} for text in said],  # type: ignore[list-item]
        complaint=case.get("complaint"),
        recommendations=case.get("recommendations", []),
        remarks=[Remark(**r) for r in case.get("remarks", [])],
        equipment=[
            Equipment(**{"id": f"u{n}", **given})
            for n, given in enumerate(case.get("equipment", []), start=1)
        ],
        readings=readings,
        refrigerant=[
            Movement(**_numbered("m", n, given))
            for n, given in enumerate(case.get("refrigerant", []), start=1)
        ],
        steps=steps,
        parts=[Part(**_numbered("p", n, given)) for n, given in enumerate(case.get("parts", []), start=1)],
        events=[Event(**_numbered("e", n, given)) for n, given in enumerate(case.get("events", []), start=1)],
        tests=[Test(**_numbered("t", n, given)) for n, given in enumerate(case.get("tests", []), start=1)],
        conclusions=[
            Conclusion(**_numbered("c", n, given))
            for n, given in enumerate(case.get("conclusions", []), start=1)
        ],
        labour=Labour(**case["labour"]) if "labour" in case else None,
    )
