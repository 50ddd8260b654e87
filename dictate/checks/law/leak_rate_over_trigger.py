"""The leak rate is over the figure that starts federal duties."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, show
from dictate.checks.law._leak_rate import LeakRate, leak_rates
from dictate.checks.leak_law import NOT_US, RULES_ABOVE, applies, deadlines, over, visit_date
from dictate.checks.rule import Finding, not_applicable, ok, problem, rule, unsure
from dictate.checks.words import when


@rule(
    id="leak-rate.over-trigger",
    checks="A leak rate over 20 % (commercial refrigeration), 30 % (industrial process) or 10 % "
    "(others) is told.",
    applies="the visit is in the USA, refrigerant was added to an appliance in scope, and its full "
    "charge is known",
    source="40 CFR 82.152, 82.157(b)-(e) (50 lb or more of an ozone-depleting refrigerant); 40 CFR 84.102, "
    "84.106(a)-(e) (15 lb or more with a regulated HFC)",
    tag="published",
    question="When was refrigerant added before, and does the owner know that the rate is over the trigger?",
    caution=f"The owner or operator makes the calculation and keeps it; this is a help. {RULES_ABOVE}",
)
def check(facts: Facts) -> Iterator[Finding]:
    if not applies(facts.record):
        yield not_applicable(NOT_US)
        return
    for item in leak_rates(facts):
        if item.least is None or not item.scope:
            continue
        yield _judge(facts, item)


def _judge(facts: Facts, item: LeakRate) -> Finding:
    rate = item.rate if item.rate is not None else item.least
    assert rate is not None
    limits = [item.limit] if item.limit is not None else [10.0, 20.0]
    computed = {
        "added": (item.added_lb, "lb"),
        "full charge": (item.full_lb or 0.0, "lb"),
        "leak rate": (rate, "%"),
        "trigger": (limits[-1], "%"),
    }
    if item.days is not None:
        computed["days"] = (item.days, "d")
    how = (
        f"{item.days:g} days since the last addition" if item.days is not None
        else "at least: the days since the last addition were not stated, so 365 were taken"
    )  # fmt: skip
    text = (
        f"{show(item.added_lb, 'lb')} added{when(item.things[0])} to a full charge of "
        f"{show(item.full_lb or 0, 'lb')} "
        f"({item.basis}): {rate:.1f}% a year ({how})"
    )
    if over(rate, limits[-1]):
        due = ""
        if (found := visit_date(facts.record)) is not None:
            last = deadlines(found).repair.isoformat()
            due = f" Counted from this addition, repair and initial test are due by {last}."
        return problem(
            f"{text}, over {limits[-1]:g}%.{due}", *item.things, computed=computed, equipment=item.job.machine
        )
    if over(rate, limits[0]):
        return unsure(
            f"{text}: over 10% (comfort cooling and others), not over 20% (commercial refrigeration); "
            f"which it is was "
            "not stated.",
            *item.things, computed=computed, equipment=item.job.machine,
            question="Is it commercial refrigeration, an industrial process, or comfort cooling?",
        )  # fmt: skip
    if item.rate is None:
        return ok(
            f"{text}: not over {limits[0]:g}% on that count.", *item.things, computed=computed,
            equipment=item.job.machine,
        )  # fmt: skip
    return ok(
        f"{text}, not over {limits[0]:g}%.", *item.things, computed=computed, equipment=item.job.machine
    )
