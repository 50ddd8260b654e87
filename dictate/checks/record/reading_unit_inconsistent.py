"""A value in another unit than the one before it at the same place, and far from it."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, absolute_psi, cite, exact
from dictate.checks.rule import Finding, ok, rule, unsure

TIMES = 5.0


@rule(
    id="reading.unit-inconsistent",
    checks="A pressure in another unit than an earlier one at the same place is not far from it.",
    applies="the same pressure was said twice in different units",
    source="Unit factors of NIST SP 811, appendix B, applied to both values",
    tag="published",
    question="Which unit was the later one?",
)
def check(facts: Facts) -> Iterator[Finding]:
    before: dict[tuple[str | None, str], list[int]] = {}
    readings = [r for r in facts.readings("pressure") if r.point in ("suction", "discharge", "liquid")]
    for n, reading in enumerate(readings):
        if not exact(reading) or reading.reference == "vacuum_depth" or reading.unit == "inHg":
            continue
        key = (reading.equipment, reading.point or "")
        for m in before.get(key, []):
            earlier = readings[m]
            if earlier.unit == reading.unit:
                continue
            one, two = absolute_psi(earlier), absolute_psi(reading)
            if one is None or two is None or one <= 0 or two <= 0:
                continue
            times = max(one, two) / min(one, two)
            computed = {"times": (times, "")}
            text = f"{cite(earlier)}, then {cite(reading)}"
            if times > TIMES:
                yield unsure(f"{text}: {times:.0f} times apart.", earlier, reading, computed=computed)
            else:
                yield ok(f"{text}.", earlier, reading, computed=computed)
            break
        before.setdefault(key, []).append(n)
