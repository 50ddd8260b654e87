"""Three winding readings that do not add up, and which of them to take again."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.electrical._windings import Triple, triples
from dictate.checks.facts import Facts, cite, show
from dictate.checks.rule import Finding, ok, problem, rule

SHARE, OHM = 0.05, 0.5
USUAL_RATIO = (2.0, 7.0)
"""Start winding over run winding; three to five is typical."""


def _one_slip(said: float, should_be: float) -> bool:
    """True when one digit, or the place of the point, tells the two numbers apart."""
    a, b = f"{said:.1f}", f"{should_be:.1f}"
    if a.replace(".", "").strip("0") == b.replace(".", "").strip("0"):
        return True
    return len(a) == len(b) and sum(x != y for x, y in zip(a, b, strict=True)) == 1


def suspects(set_: Triple) -> list[tuple[str, float]]:
    """Return the pairs whose reading alone may be wrong, likeliest first, each with what it should be.

    A pair is a suspect when the other two, taken as right, give it a possible value: positive, and with
    the start winding above the run winding. A value marked for review, or one for which another hearing
    fits, comes first; then what gives a usual ratio of start to run winding with one slip of a digit.
    """
    run, start, both = (set_.ohms(p) for p in ("common-run", "common-start", "run-start"))
    options = {
        "run-start": (run + start, run, start),
        "common-start": (both - run, run, both - run),
        "common-run": (both - start, both - start, start),
    }
    scored: list[tuple[float, str, float]] = []
    for pair, (should_be, r, s) in options.items():
        if should_be <= 0.05:
            continue
        reading = set_.pairs[pair]
        ratio = s / r if r > 0 else 0.0
        score = 0.0 if USUAL_RATIO[0] <= ratio <= USUAL_RATIO[1] else (1.0 if ratio > 1 else 3.0)
        if _one_slip(set_.ohms(pair), should_be):
            score -= 0.5
        # With nothing else to go by, run-start is the reading that settles it.
        score -= 0.2 if pair == "run-start" else 0.0
        near = max(SHARE * should_be, 0.1)
        if any(c.value is not None and abs(c.value - should_be) <= near for c in reading.candidates):
            score -= 4.0
        elif reading.review:
            score -= 2.0
        scored.append((score, pair, should_be))
    scored.sort()
    return [(pair, should_be) for score, pair, should_be in scored if score <= scored[0][0] + 1.0]


@rule(
    id="winding.sum-mismatch",
    checks="Run-start is the sum of common-run and common-start, within 5 % or 0.5 ohm, whichever is larger.",
    applies="all three pairs of a single-phase motor were measured and none is open",
    source="Vocational HVACR textbooks, chapter on terminal identification: the meter reads both windings in "
    "series. Series resistances add; the tolerance is common practice for leads and meter",
    tag="published",
    question="Can the odd pair be measured again, leads zeroed and terminals clean?",
    caution="Power off, locked out and proved dead; leads removed before measuring.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for set_ in triples(facts):
        if not set_.complete or not set_.finite:
            continue
        run, start, both = (set_.ohms(p) for p in ("common-run", "common-start", "run-start"))
        total = run + start
        allowed = max(SHARE * total, OHM)
        used = set_.readings
        said = ", ".join(cite(r) for r in used)
        computed = {
            "sum": (total, "ohm"),
            "difference": (both - total, "ohm"),
            "allowed": (allowed, "ohm"),
        }
        if abs(both - total) <= allowed + 1e-9:
            yield ok(f"The windings of the {set_.component} add up: {said}.", *used, computed=computed)
            continue
        text = f"{said}: run-start should be {show(total, 'ohm')}, it is {show(both, 'ohm')}."
        done = facts.replaced(set_.component, set_.equipment)
        largest = max(run, start)
        if abs(largest - (total - largest + both)) <= max(SHARE * largest, OHM) and largest > both:
            pair = "common-run" if run >= start else "common-start"
            yield problem(
                f"{text} The greatest is {pair}, and it is the sum of the other two: the terminals are named "
                "wrongly, or two values changed places.",
                *used,
                computed=computed,
                resolved=done,
                question="Which terminal is common? The pair with the greatest reading leaves it out.",
            )
            continue
        named = suspects(set_)
        first, should_be = named[0]
        computed[f"{first} that fits"] = (should_be, "ohm")
        text += f" {first} would fit at {show(should_be, 'ohm')}"
        text += "".join(f", or {p} at {show(v, 'ohm')}" for p, v in named[1:]) + "."
        yield problem(
            text,
            *used,
            computed=computed,
            resolved=done,
            question=f"Can {first.replace('-', ' to ')} be measured again, leads zeroed and terminals clean?",
        )
