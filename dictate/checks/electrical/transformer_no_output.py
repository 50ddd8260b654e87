"""A transformer that is fed and gives nothing."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, exact, value_in
from dictate.checks.rule import Finding, ok, problem, rule


@rule(
    id="transformer.no-output",
    checks="A control transformer with voltage on its primary has voltage on its secondary.",
    applies="primary and secondary voltage of a transformer were measured",
    source="Vocational HVACR textbooks, chapter on control circuits: primary live and secondary dead is a "
    "transformer open inside, or its own fuse",
    tag="published",
    question="Is its own fuse or breaker closed, and what had loaded it: a shorted coil or wire?",
    caution="Live work: qualified persons only.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for group in facts.by_machine(facts.readings("voltage", component="transformer")).values():
        for moment in facts.same_moment(group):
            primary = [r for r in moment if r.point == "primary" and exact(r) and value_in(r, "V") >= 60]
            for secondary in (r for r in moment if r.point == "secondary" and exact(r)):
                feed = facts.nearest(secondary, primary)
                if feed is None:
                    continue
                computed = {"secondary": (value_in(secondary, "V"), "V")}
                text = f"transformer {cite(feed)}, {cite(secondary)}"
                if value_in(secondary, "V") < 2:
                    done = facts.replaced("transformer", secondary.equipment)
                    yield problem(
                        f"{text}: fed, and dead.", feed, secondary, computed=computed, resolved=done
                    )
                else:
                    yield ok(f"{text}.", feed, secondary, computed=computed)
