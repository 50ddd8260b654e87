"""The log applied to the record as it was first made."""

from __future__ import annotations

from collections.abc import Sequence

from dictate.record.corrections.applied import apply
from dictate.record.corrections.in_words import ReadAgain, read_answers
from dictate.record.corrections.items import copied
from dictate.record.corrections.log import FILE, active
from dictate.record.visit import Correction, Problem, Record


def replay(base: Record, log: Sequence[Correction], read_again: ReadAgain) -> Record:
    """Return the record as it stands after the log, unchecked; `base` is left as it is."""
    record = copied(base)
    entries = active(log)
    answers = [e for e in entries if e.action == "answer" and e.clip is not None and e.segments]
    if answers:
        read_answers(record, answers, read_again)
    for entry in entries:
        if not apply(record, entry, base.visit.revision + log.index(entry)):
            record.problems.append(
                Problem(
                    file=FILE,
                    error=f"answer {entry.id} of {entry.by} ({entry.after or entry.action}) "
                    "fits nothing in the record as it was made anew",
                    advice="Answer it again, or take it back.",
                )
            )
    record.corrections = [e.model_copy(update={"segments": []}) for e in log]
    record.visit.revision = base.visit.revision + len(log)
    return record
