"""The summary that a technician reads in half a minute in the van: what needs a look comes first."""

from __future__ import annotations

from dictate.export import wording
from dictate.export.digest import Digest, Look, Machine, digest
from dictate.record.visit import Reading, Record, Test

HEADINGS = {
    "failed input": "Could not be read",
    "doubtful value": "Values to confirm",
    "does not add up": "Does not add up",
    "not said": "Not said, and this job calls for it",
    "cannot be told": "Cannot be told from what was said",
    "set aside": "Set aside by a person, with the reason",
    "put right": "Found, and put right on this visit",
}


def summary(record: Record) -> str:
    """Return the summary as plain text, lines at most about 100 characters, ending in a newline."""
    view = digest(record)
    lines = [_head(view), ""]
    lines += _needs_a_look(view)
    if record.complaint:
        lines += [f"Complaint: {record.complaint}", ""]
    for machine in view.machines:
        lines += _machine(machine)
    if record.labour:
        lines += _labour(record)
    if record.recommendations:
        lines += ["Recommended", *(f"  - {r}" for r in record.recommendations), ""]
    lines.append(
        "This is what was said, not a statement that anything is safe. "
        "The nameplate, local codes and licensed practice rule."
    )
    return "\n".join(lines) + "\n"


def _head(view: Digest) -> str:
    visit = view.record.visit
    facts = [visit.site or visit.customer or "", visit.date or "", visit.technician or ""]
    named = ", ".join(f for f in facts if f)
    return f"Visit {visit.id}" + (f": {named}" if named else "")


def _needs_a_look(view: Digest) -> list[str]:
    asked = len(view.open)
    lines = [f"NEEDS A LOOK: {asked}" if asked else "NEEDS A LOOK: nothing was found that needs one."]
    if not view.looks:
        return [*lines, ""]
    kind = None
    for look in view.looks:
        if look.kind != kind:
            kind = look.kind
            lines.append(f"  {HEADINGS[kind]}")
        lines += _look(look)
    return [*lines, ""]


def _look(look: Look) -> list[str]:
    where = next((wording.place(at) for at in look.at if wording.place(at)), "")
    lines = [f"  - {look.text}" + (f"  [{where}]" if where else "")]
    if look.heard:
        lines.append(f'      heard: "{look.heard}"')
    lines += [f"      or: {option}" for option in look.options]
    if look.question:
        lines.append(f"      {look.question}")
    if look.caution:
        lines.append(f"      Caution: {look.caution}")
    return lines


def _headline(title: str) -> str:
    """Return a title in capitals, but a refrigerant as the standard writes it: R-134a, R-600a."""
    return " ".join(word if word.startswith("R-") else word.upper() for word in title.split(" "))


def _machine(machine: Machine) -> list[str]:
    lines = [_headline(machine.title) if len(machine.title) < 40 else machine.title]
    if machine.plate:
        lines.append("  Plate: " + "; ".join(machine.plate))
    lines += [f"  Found: {text}" for text in machine.found]
    if machine.done:
        lines.append("  Done: " + ", ".join(_named(machine)))
    if machine.planned:
        lines.append("  Still planned: " + ", ".join(wording.STEP_WORDS[s.step] for s in machine.planned))
    if machine.not_done:
        lines.append("  Said not done: " + ", ".join(wording.STEP_WORDS[s.step] for s in machine.not_done))
    for pair in machine.pairs:
        sides = [
            (f"found {_values(pair.found)}" if pair.found else ""),
            (f"left {_values(pair.left)}" if pair.left else ""),
            (_values(pair.other) if pair.other else ""),
        ]
        lines.append(f"  {pair.what}: " + "; ".join(s for s in sides if s))
    for item in machine.movements:
        lines.append(f"  {'Out' if item.direction == 'recovered' else 'In'}: {wording.movement(item)}")
    lines += [f"  {_test(test)}" for test in machine.tests]
    for part in machine.parts:
        count = f"{wording.number(part.quantity)} × " if part.quantity else ""
        extra = ", ".join(e for e in (part.rating, part.part_number) if e)
        lines.append(f"  Part {part.action}: {count}{part.name}" + (f" ({extra})" if extra else ""))
    for reading in machine.context:
        lines.append(
            f"  ({wording.ROLE_WORDS[reading.role]}: {wording.what(reading)} {wording.value(reading)})"
        )
    return [*lines, ""]


def _named(machine: Machine) -> list[str]:
    return list(
        dict.fromkeys(
            wording.STEP_WORDS[s.step] + (f" ({s.component})" if s.component else "") for s in machine.done
        )
    )


def _values(readings: list[Reading]) -> str:
    return ", then ".join(wording.value(r) + (" (?)" if r.review else "") for r in readings)


def _test(test: Test) -> str:
    words = [f"{test.kind.replace('_', ' ')} {test.attempt}:"]
    if test.reached:
        words.append(f"reached {wording.amount(test.reached.value, test.reached.unit)},")
    if test.start and test.end:
        start = wording.amount(test.start.value, test.start.unit)
        words.append(f"{start} to {wording.amount(test.end.value, test.end.unit)}")
    if test.minutes is not None:
        words.append(f"in {wording.number(test.minutes)} min")
    if test.result:
        words.append(f"({test.result})")
    return " ".join(words).rstrip(",:").capitalize()


def _labour(record: Record) -> list[str]:
    labour = record.labour
    if labour is None:
        return []
    span = f"{labour.start or '?'} to {labour.end or '?'}" if labour.start or labour.end else ""
    hours = f"{wording.number(labour.hours)} h" if labour.hours is not None else ""
    travel = f"travel {wording.number(labour.travel_hours)} h" if labour.travel_hours is not None else ""
    return ["Labour: " + ", ".join(x for x in (span, hours, travel) if x), ""]
