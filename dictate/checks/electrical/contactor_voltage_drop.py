"""Volts lost across the closed contacts of a contactor."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, cite_full, exact, value_in
from dictate.checks.rule import Finding, ok, problem, rule, unsure
from dictate.record.visit import Reading

SHARE = 0.03
STRICT = 0.5


def _is_contactor(r: Reading) -> bool:
    return r.component is None or "contactor" in r.component or "starter" in r.component


def _side(facts: Facts, reading: Reading) -> str | None:
    """Return `line` or `load`: the point that was said, or "238 in, 221 out" of a contactor."""
    if reading.point is not None or "contactor" not in (reading.component or ""):
        return reading.point
    if reading.at.first_word is None:
        return None
    after = facts.around(reading)[1].split()[:1]
    return {"in": "line", "out": "load"}.get(after[0]) if after else None


@rule(
    id="contactor.voltage-drop",
    checks="No more than 3 % of the line voltage is lost across a closed pole under load.",
    applies="line and load side of a contactor were measured while it was closed, or the drop was said",
    source="Refrigeration Service Engineers Society training text on contactors: 3 % of rated line voltage "
    "is "
    "the upper reject limit; the trade's stricter half volt is common practice",
    tag="published",
    question="What is the drop across each closed pole under load?",
    caution="Measured live: by qualified persons only. Silver contacts are replaced, not filed.",
)
def check(facts: Facts) -> Iterator[Finding]:
    group_of = facts.by_machine([r for r in facts.readings("voltage") if _is_contactor(r) and exact(r)])
    for group in group_of.values():
        results: list[tuple[float, float | None, list[Reading]]] = []
        for moment in facts.same_moment(group):
            lines = [r for r in moment if _side(facts, r) == "line" and value_in(r, "V") >= 60]
            drops = [
                r
                for r in moment
                if "contactor" in (r.component or "")
                and value_in(r, "V") < 60
                and r.point in (None, "line-load", "L1", "L2", "L3")
                and (
                    r.derived
                    or r.point == "line-load"
                    or "across"
                    in f"{r.heard} {r.point} {facts.around(r, before=9, sentence=True)[0]}".lower()
                    or facts.around(r)[1].startswith("across")
                )
            ]
            pairs = []
            for load in (r for r in moment if _side(facts, r) == "load"):
                line = facts.nearest(load, lines)
                # A load side that is dead is an open contact, which is another rule.
                if line is not None and value_in(load, "V") >= 0.5 * value_in(line, "V"):
                    pairs.append((line, load))
            for line, load in pairs:
                lost = value_in(line, "V") - value_in(load, "V")
                said = [d for d in drops if abs(value_in(d, "V") - lost) < 1]
                results.append((lost, value_in(line, "V"), [line, load, *said]))
            for drop in drops:
                if any(drop in used for _, _, used in results):
                    continue
                rated = [p.value for p in facts.plate(drop.equipment, "voltage") if p.value >= 100]
                live = lines or [
                    r
                    for r in facts.readings("voltage", equipment=drop.equipment, stage=drop.stage)
                    if exact(r) and value_in(r, "V") >= 100
                ]
                line_volts = value_in(live[0], "V") if live else (max(rated) if rated else None)
                results.append((value_in(drop, "V"), line_volts, [drop]))
        yield from _judge(facts, results)


def _judge(facts: Facts, results: list[tuple[float, float | None, list[Reading]]]) -> Iterator[Finding]:
    good = [
        used for lost, volts, used in results if used[0].stage == "as_left" and lost <= SHARE * (volts or 208)
    ]
    for lost, volts, used in results:
        limit = SHARE * volts if volts else None
        computed = {"drop": (lost, "V")}
        if limit is not None:
            computed["limit"] = (limit, "V")
        said = ", ".join(cite_full(r) for r in used)
        text = f"{lost:.3g} V lost across the contactor ({said})"
        if limit is None and 3.6 < lost <= 13.8:
            yield unsure(
                f"{text}; the line voltage was not said, so 3 % of it is not known.",
                *used,
                computed=computed,
                question="What is the line voltage?",
            )
        elif lost <= (limit if limit is not None else 3.6):
            note = (
                ": over half a volt, which the trade looks into" if lost > STRICT and len(used) == 1 else ""
            )
            yield ok(f"{text}{note}.", *used, computed=computed)
        else:
            done = bool(good) or (
                used[0].stage != "as_left" and facts.replaced("contactor", used[0].equipment)
            )
            share = f", over {limit:.3g} V (3 %)" if limit is not None else ", over 3 % of any usual supply"
            tail = f" As left: {', '.join(cite(r) for r in good[-1])}." if good else ""
            yield problem(f"{text}{share}.{tail}", *used, computed=computed, resolved=done)
