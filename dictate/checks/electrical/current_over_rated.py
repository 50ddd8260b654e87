"""A steady current above the rated load."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.electrical._supply import is_spike, load_ratings
from dictate.checks.facts import Facts, bounds, cite, show, value_in
from dictate.checks.rule import Finding, ok, problem, rule, unsure

METER = 0.02
"""Share: what a clamp meter may be off; an excess within it is asked about and not called a fault."""
LOCKED = 3.0
"""Times the rating: from here on it is a start or a locked rotor, which another rule looks at."""
PROTECTOR = 1.56


@rule(
    id="current.over-rated",
    checks="A steady current is not above the rated load on the plate. A start or locked-rotor spike is not "
    "compared.",
    applies="a steady current was measured and the rated current of that part was said",
    source="NFPA 70 (NEC) 440.6(A): the nameplate's rated-load or branch-circuit selection current holds "
    "for a "
    "hermetic compressor; 440.52(B): a protector may not permit more than 156 % of it continuously",
    tag="published",
    question="Was it running steadily, at which voltage, and with what head pressure?",
    caution="Live work: qualified persons only. A motor held above its rating overheats.",
)
def check(facts: Facts) -> Iterator[Finding]:
    measured = facts.readings("current")
    # The latest value as left, within its rating, settles what was found before the repair.
    results = []
    for reading in measured:
        if reading.value is None or reading.value == 0 or reading.derived or is_spike(facts, reading):
            continue
        rated = load_ratings(facts, reading)
        if not rated:
            continue
        value = value_in(reading, "A")
        # With several ratings said (old and new part) the one nearest in the telling is meant.
        said = [r for _, r in rated if r is not None]
        chosen = facts.nearest(reading, said)
        limit = next((a for a, r in rated if r is not None and r is chosen), rated[0][0])
        if limit <= 0 or value >= LOCKED * limit:
            continue
        results.append((reading, chosen, limit))
    for reading, chosen, limit in results:
        least, greatest = bounds(reading, "A")
        value = value_in(reading, "A")
        share = value / limit
        used = [reading] + ([chosen] if chosen is not None else [])
        name = reading.component or "machine"
        text = f"{name} {cite(reading, 'current')} against a rated {show(limit, 'A')}: {100 * share:.0f} %"
        computed = {"of rated": (100 * share, "%"), "rated": (limit, "A")}
        settled = [
            r
            for r, _, top in results
            if (r.stage == "as_left" or facts.replaced(r.component, r.equipment))
            and facts.place(r) > facts.place(reading)
            and r.component == reading.component
            and r.equipment == reading.equipment
            and bounds(r, "A")[1] <= top
        ]
        if greatest <= limit:
            yield ok(f"{text}.", *used, computed=computed)
        elif least <= limit * 0.9:
            continue  # "at least" a value well within the rating leaves nothing to ask
        elif least <= limit:
            yield unsure(f"{text}, and only a bound was said.", *used, computed=computed)
        elif settled:
            text = f"As found {text}: above it. As left: {cite(settled[-1], 'current')}."
            yield problem(text, *used, settled[-1], computed=computed, resolved=True)
        elif least <= limit * (1 + METER) and len(load_ratings(facts, reading)) > 1:
            yield ok(f"{text}: as near to it as a meter can tell.", *used, computed=computed)
        elif least <= limit * (1 + METER):
            yield unsure(f"{text}: above it by no more than a meter may be off.", *used, computed=computed)
        else:
            beyond = f" and beyond the {100 * PROTECTOR:.0f} % of a protector" if share > PROTECTOR else ""
            done = reading.stage != "as_left" and facts.replaced(reading.component, reading.equipment)
            yield problem(f"{text}: above it{beyond}.", *used, computed=computed, resolved=done)
