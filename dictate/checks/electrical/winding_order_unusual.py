"""The run winding reads higher than the start winding."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.electrical._windings import triples
from dictate.checks.facts import Facts, cite
from dictate.checks.rule import Finding, ok, rule, unsure


@rule(
    id="winding.order-unusual",
    checks="Common-run is the lowest of the three readings and run-start the highest.",
    applies="both windings of a single-phase motor were measured with a number",
    source="Vocational HVACR textbooks, chapter on terminal identification: the start winding is the thinner "
    "wire and reads higher than the run winding",
    tag="published",
    question="Are run and start named the right way round, or did the two values change places?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for set_ in triples(facts):
        if "common-run" not in set_.pairs or "common-start" not in set_.pairs or not set_.finite:
            continue
        run, start = set_.pairs["common-run"], set_.pairs["common-start"]
        if set_.ohms("common-start") <= 0:
            continue
        ratio = set_.ohms("common-start") / max(set_.ohms("common-run"), 0.01)
        computed = {"start over run": (ratio, "")}
        if ratio >= 1:
            yield ok(f"{cite(run)} below {cite(start)}, as it should be.", run, start, computed=computed)
        else:
            yield unsure(
                f"{cite(run)} is above {cite(start)} on the {set_.component}: the start winding is the one "
                "that "
                "reads higher.",
                run,
                start,
                computed=computed,
            )
