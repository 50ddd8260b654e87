"""Questions that were set aside, found again among those of the checks that ran after the replay."""

from __future__ import annotations

from collections.abc import Iterable

from dictate.record.corrections.log import active
from dictate.record.visit import Check, Correction, Record

OPEN = ("problem", "missing", "unsure")


def settle(record: Record, log: Iterable[Correction]) -> None:
    """Mark the questions that were set aside, after the checks have run again.

    A question counts as the same one when its sentence is the same, or, for something missing, when it is
    asked for the same reason; a finding whose numbers changed is asked again.
    """
    for entry in active(list(log)):
        if entry.action != "waive":
            continue
        said = f"{entry.note or 'no reason given'} ({entry.by}, {entry.made_at[:10]})"
        for problem in record.problems:
            if entry.rule == "input" and f"{problem.file}: {problem.error}" == entry.message:
                problem.waived = said
        for check in record.checks:
            if check.waived is None and check.outcome in OPEN and _same_question(check, entry):
                check.waived = said
                check.blocking = False


def _same_question(check: Check, entry: Correction) -> bool:
    if check.rule != entry.rule or check.equipment != entry.equipment:
        return False
    evidence = " ".join(check.evidence)
    missing = check.outcome == "missing" and entry.fields.get("outcome") == "missing"
    return check.message == entry.message or (missing and entry.fields.get("evidence") == evidence)
