"""A breaker or fuse larger than the compressor's rating allows."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, show, value_in
from dictate.checks.rule import Finding, ok, problem, rule, unsure
from dictate.checks.work import jobs

DEVICES = ("breaker", "fuse")
SHORT_CIRCUIT, SHORT_CIRCUIT_MOST, OVERLOAD, DISCONNECT = 1.75, 2.25, 1.40, 1.15
"""Shares of the rated-load current: NEC 440.22(A), its exception, 440.52(A)(1), 440.12."""


def limits(rated_load: float) -> dict[str, float]:
    """Return the limits in A that follow from a compressor's rated-load current.

    `protection` and `protection at most` bound the breaker or fuse, `overload` a separate overload relay, and
    `disconnect` is the least rating of the disconnect.
    """
    return {
        "protection": SHORT_CIRCUIT * rated_load,
        "protection at most": SHORT_CIRCUIT_MOST * rated_load,
        "overload": OVERLOAD * rated_load,
        "disconnect": DISCONNECT * rated_load,
    }


@rule(
    id="protection.oversized",
    checks="A compressor's breaker or fuse is at most 175 % of its rated-load current, 225 % if it "
    "would not start.",
    applies="the size of a breaker or fuse and the compressor's rated-load current were said",
    source="NEC 440.22(A); a maximum overcurrent device on the plate overrides it (440.4(B))",
    tag="published",
    question="What maximum fuse or breaker does the plate give, and is that circuit only the compressor's?",
    caution="An oversized breaker or fuse lets wires and windings burn before it opens. Local code rules.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        rated = [r for r in job.seen("current", role="rated") if r.value]
        sizes = [r for r in rated if r.component in DEVICES]
        loads = [r for r in rated if r.component == "compressor" and "lock" not in r.heard.lower()]
        if len(loads) != 1 or not sizes:
            continue
        found = limits(value_in(loads[0], "A"))
        for size in sizes:
            amps = value_in(size, "A")
            computed = {"limit": (found["protection"], "A"), "at most": (found["protection at most"], "A")}
            text = f"{cite(size, size.component)}, compressor rated {show(value_in(loads[0], 'A'), 'A')}"
            if amps > found["protection at most"]:
                yield problem(
                    f"{text}: over 225 %.", size, loads[0], computed=computed, equipment=job.machine
                )
            elif amps > found["protection"]:
                yield unsure(
                    f"{text}: over 175 %, which is allowed up to 225 % when it would not start otherwise.",
                    size, loads[0], computed=computed, equipment=job.machine,
                )  # fmt: skip
            else:
                yield ok(f"{text}: within 175 %.", size, loads[0], computed=computed, equipment=job.machine)
