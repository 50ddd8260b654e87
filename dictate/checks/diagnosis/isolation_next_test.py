"""The fault lies between the last thing that happened and the first that did not."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.diagnosis._sequence import marks, of_type
from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, ok, rule, unsure


@rule(
    id="isolation.next-test",
    checks="Where the sequence of operation stopped, the test that splits what remains was made.",
    applies="the kind of machine is known, and something of its sequence was said not to happen",
    source="Fault isolation along the sequence of operation, half of what remains at a time; the sequences "
    "are "
    "in vocabulary/sequences.toml",
    tag="common practice",
    question="What does the step before it read?",
    caution="Live tests are for qualified persons only.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for equipment in facts.machines():
        machine = facts.machine(equipment)
        sequence = of_type(machine.type) if machine is not None else None
        if sequence is None:
            continue
        seen = marks(facts, equipment, sequence)
        stops = [m for m in seen if not m.happened]
        if not stops:
            continue
        steps = sequence["step"]
        failed = min(stops, key=lambda m: m.step)
        after = [
            m for m in seen if m.step == failed.step and m.happened and seen.index(m) > seen.index(failed)
        ]
        name = steps[failed.step]["name"]
        fixed = facts.parts("replaced", "repaired", "adjusted", "cleaned", equipment=equipment)
        if after:
            yield ok(
                f"It stopped where {name} ({sequence['name']}), and went on later.", failed.on, after[-1].on
            )
            continue
        if fixed or facts.conclusions(equipment=equipment):
            named = ", ".join(p.name for p in fixed) or facts.conclusions(equipment=equipment)[0].text
            yield ok(f"It stopped where {name}; what was found or done: {named}.", failed.on, *fixed)
            continue
        reached = [m for m in seen if m.happened and m.step < failed.step]
        last = max(reached, key=lambda m: m.step) if reached else None
        between = range(last.step + 1 if last is not None else 0, failed.step + 1)
        middle = between[(len(between) - 1) // 2] if len(between) > 1 else failed.step
        done = (
            f"the last that came about is that {steps[last.step]['name']}"
            if last
            else "nothing before it was said"
        )
        on = [failed.on] + ([last.on] if last is not None else [])
        yield unsure(
            f"In the sequence of a {sequence['name']}, {done}; that {name} did not follow. "
            f"{len(between)} step{'s' if len(between) > 1 else ''} may be at fault.",
            *on,
            question=f"Where it stopped, what does this show: {steps[middle]['test']}?",
            computed={"steps left": (float(len(between)), "")},
        )
