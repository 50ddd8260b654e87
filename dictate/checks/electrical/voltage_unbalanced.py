"""Three line voltages too far from their mean."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from dictate.checks.electrical._legs import LINES, in_threes
from dictate.checks.facts import Facts, cite, value_in
from dictate.checks.rule import Finding, ok, problem, rule

LIMIT = 2.0
"""Per cent; what many makers of refrigeration equipment set. A motor aims at 1 and never runs above 5."""
DERATING = ((1.0, 1.0), (1.5, 0.97), (2.0, 0.95), (3.0, 0.90), (4.0, 0.82), (5.0, 0.75))
"""Unbalance in per cent -> share of rated power; points of the curve in NEMA MG 1, figure 14-1."""


def unbalance(values: list[float]) -> float:
    """Return the NEMA voltage unbalance in per cent: the largest deviation from the mean, over the mean."""
    mean = sum(values) / len(values)
    return 100 * max(abs(v - mean) for v in values) / mean


def derating(percent: float) -> float | None:
    """Return the share of rated power that a motor may give; None above 5 %, where it must not run."""
    if percent > DERATING[-1][0]:
        return None
    for (x0, y0), (x1, y1) in pairwise(DERATING):
        if percent <= x1:
            return min(1.0, y0 + (y1 - y0) * (percent - x0) / (x1 - x0))
    return DERATING[-1][1]


@rule(
    id="voltage.unbalanced",
    checks="The three line voltages lie within 2 % of their mean (NEMA definition, not max less min).",
    applies="three line-to-line voltages of one machine were measured",
    source="NEMA MG 1-2016, 12.45 and 14.36 with figure 14-1 (definition, 1 % aim, 5 % limit, derating); "
    "2 % is a usual limit in equipment literature",
    tag="published",
    question="When all three leads are rotated, does the odd leg stay with the supply or move along?",
    caution="Line voltage is measured live: by qualified persons only, under the employer's rules.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for used in in_threes(facts, "voltage", LINES, unnamed=True):
        values = [value_in(r, "V") for r in used]
        if min(values) <= 0:
            continue
        percent = unbalance(values)
        share = derating(percent)
        computed = {"unbalance": (percent, "%"), "mean": (sum(values) / 3, "V")}
        if share is not None:
            computed["derating"] = (100 * share, "%")
        text = f"Voltage unbalance is {percent:.2f} % ({', '.join(cite(r) for r in used)})"
        later = [
            s
            for s in in_threes(facts, "voltage", LINES, unnamed=True)
            if s[0].equipment == used[0].equipment
            and facts.place(s[0]) > facts.place(used[0])
            and min(value_in(r, "V") for r in s) > 0  # a dead test on three legs has no unbalance
            and unbalance([value_in(r, "V") for r in s]) <= LIMIT
        ]
        done = used[0].stage != "as_left" and bool(later)
        tail = f" Later: {', '.join(cite(r) for r in later[-1])}." if done else ""
        if percent <= 1:
            yield ok(f"{text}.", *used, computed=computed)
        elif percent <= LIMIT:
            yield ok(f"{text}: within 2 %, over the 1 % that a motor aims at.", *used, computed=computed)
        elif share is None:
            text += f": above 5 %, where a motor should not run.{tail}"
            yield problem(text, *used, computed=computed, resolved=done)
        else:
            text += f": over 2 %. A motor gives about {100 * share:.0f} % of its rating at that.{tail}"
            yield problem(text, *used, computed=computed, resolved=done)
