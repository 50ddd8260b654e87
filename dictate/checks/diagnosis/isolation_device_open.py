"""Live on one side of a device and dead on the other."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, exact, value_in
from dictate.checks.rule import Finding, ok, problem, rule, unsure

BREAKS = ("fuse", "breaker", "disconnect")
"""These are meant to be closed: live in and dead out is a fault; a contactor may not be told to close."""


@rule(
    id="isolation.device-open",
    checks="A device that is live on its line side and should be closed is live on its load side.",
    applies="line and load side of one device were measured",
    source="Ohm's law across a closed contact: no voltage is lost across it; live in and dead out is open",
    tag="published",
    question="Is there voltage across its coil, and does it pull in?",
    caution="Live tests are for qualified persons only; prove dead before a fuse is drawn.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for group in facts.by_machine(facts.readings("voltage", point=("line", "load"))).values():
        for name in dict.fromkeys(r.component for r in group):
            own = [r for r in group if r.component == name and exact(r)]
            for moment in facts.same_moment(own):
                lines = [r for r in moment if r.point == "line" and value_in(r, "V") >= 18]
                for load in (r for r in moment if r.point == "load"):
                    line = facts.nearest(load, lines)
                    if line is None:
                        continue
                    device = name or "device"
                    text = f"{device} {cite(line)}, {cite(load)}"
                    if value_in(load, "V") > 0.1 * value_in(line, "V"):
                        yield ok(f"{text}: closed.", line, load)
                        continue
                    coil = [
                        r
                        for r in facts.readings("voltage", point="coil", equipment=load.equipment)
                        if exact(r) and r.stage == load.stage
                    ]
                    later = [
                        r for r in own if r.point == "load" and r.stage == "as_left" and value_in(r, "V") > 18
                    ]
                    done = load.stage != "as_left" and (bool(later) or facts.replaced(name, load.equipment))
                    if done:
                        yield problem(f"{text}: it was open.", line, load, *later, resolved=True)
                    elif any(word in device for word in BREAKS):
                        yield problem(
                            f"{text}: it is open.",
                            line,
                            load,
                            question="What opened it, and is what it feeds shorted or grounded?",
                        )
                    elif coil and value_in(coil[-1], "V") >= 16:
                        yield unsure(
                            f"{text}, with {cite(coil[-1], 'coil')}: told to close, and open.",
                            line,
                            load,
                            coil[-1],
                            question="Does it pull in, and what is the resistance of its coil?",
                        )
                    elif coil:
                        yield unsure(
                            f"{text}, with {cite(coil[-1], 'coil')}: it is not told to close.",
                            line,
                            load,
                            coil[-1],
                            question="Which control in the coil's circuit is open?",
                        )
                    else:
                        yield unsure(f"{text}: open, or not told to close.", line, load)
