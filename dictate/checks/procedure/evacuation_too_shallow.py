"""A vacuum that does not reach the final vacuum."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, clock, show
from dictate.checks.rule import Finding, ok, problem, rule, unsure
from dictate.checks.vacuum import attempts, limit
from dictate.checks.words import when
from dictate.checks.work import inches, jobs
from dictate.units import convert

ATMOSPHERE_INHG = 29.921
"""Standard atmosphere; an inch of barometer or a hill changes what inches on a compound gauge mean."""


@rule(
    id="evacuation.too-shallow",
    checks="The vacuum reaches 500 micron, or the figure that the maker or the plate gives.",
    applies="a vacuum was said for an evacuation",
    source="training texts and service manuals, final vacuum 500 micron or lower (200 to 500); UFGS 23 "
    "23 00 asks "
    "for 300",
    tag="published",
    question="Was it pulled deeper after that, and what did the vacuum gauge show with the pump valved off?",
    caution="Below 4 579 micron water freezes: pull slowly on a wet system.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        most, told = limit(job)
        basis = "as said" if told is not None else "the usual final vacuum"
        deep = [a for a in attempts(job) if a.lowest is not None]
        if deep:
            last = deep[-1]
            assert last.lowest is not None
            earlier = [a for a in deep[:-1] if a.lowest is not None and a.lowest > most]
            seen = "".join(
                f" Attempt {a.number} reached {show(a.lowest or 0, 'micron')} only." for a in earlier
            )
            things = [*last.things, *(t for a in earlier for t in a.things), *([told] if told else [])]
            computed = {"reached": (last.lowest, "micron"), "limit": (most, "micron")}
            got = f"{show(last.lowest, 'micron')} reached{when(last.things[0])}"
            text = f"{got}, {show(most, 'micron')} is {basis}"
            bound = last.relation in ("<", "<=")
            if last.lowest <= most and not (last.relation in (">", ">=") and last.lowest >= 0.9 * most):
                yield ok(f"{text}.{seen}", *things, computed=computed, equipment=job.machine)
            elif bound or last.lowest <= most:
                word = "below" if bound else "above"
                yield unsure(
                    f"Only “{word} {show(last.lowest, 'micron')}” was said; {show(most, 'micron')} is "
                    f"{basis}.{seen}",
                    *things, computed=computed, equipment=job.machine,
                )  # fmt: skip
            else:
                yield problem(
                    f"{text}: not reached.{seen}", *things, computed=computed, equipment=job.machine
                )
        elif gauge := inches(job):
            deepest = max(gauge, key=lambda r: r.value or 0)
            left = convert(max(ATMOSPHERE_INHG - (deepest.value or 0), 0.0), "inHg", "micron")
            time = clock(deepest.at)
            yield unsure(
                f"{show(deepest.value or 0, 'inHg')} on a compound gauge{f' ({time})' if time else ''} "
                f"leaves about "
                f"{show(left, 'micron')} at a standard barometer; such a gauge cannot show "
                f"{show(most, 'micron')}.",
                deepest,
                question="What did a vacuum gauge in microns show?",
                computed={"left": (left, "micron"), "limit": (most, "micron")},
                equipment=job.machine,
            )
