"""What an answer in words brought: told to the person, counted, and weighed against what was asked."""

from __future__ import annotations

from dictate.record.visit import Correction, Record
from dictate.review.answers.items import describe
from dictate.review.questions import Question, questions, title


def taken(record: Record, entry: Correction) -> list[str]:
    """Say what was taken from an answer, for the person who gave it."""
    clip = entry.clip.id if entry.clip is not None else ""
    out = []
    for kind in ("readings", "refrigerant", "steps", "parts", "events"):
        out += [describe(kind, i) for i in getattr(record, kind) if i.at.clip == clip]
    out += [describe("equipment", e) for e in record.equipment if e.at is not None and e.at.clip == clip]
    if record.labour is not None and any(a.clip == clip for a in record.labour.at):
        out.append(describe("labour", record.labour))
    out += [r.text for r in record.remarks if r.at.clip == clip]
    return list(dict.fromkeys(out or _plate(record, entry)))


def worth_of(record: Record, entry: Correction, question: Question | None) -> int:
    """Weigh what was taken from an answer: values and names count for it, steps not asked for against it.

    "150 psi and it held" says something of the pressure test that was asked about, not of a vacuum.
    """
    clip = entry.clip.id if entry.clip is not None else ""
    wanted = question.step if question is not None else None
    steps = [s for s in record.steps if s.at.clip == clip]
    extra = sum(1 for s in steps if wanted is not None and s.step != wanted)
    doubts = sum(1 for r in record.readings if r.at.clip == clip and r.review)
    doubts += sum(1 for m in record.refrigerant if m.at.clip == clip and m.review)
    return count_brought(record, entry) - doubts - extra


def count_brought(record: Record, entry: Correction) -> int:
    """Count the values and names that an answer brought."""
    clip = entry.clip.id if entry.clip is not None else ""
    values = sum(1 for r in record.readings if r.at.clip == clip)
    values += sum(1 for m in record.refrigerant if m.at.clip == clip and m.value is not None)
    return values + len(_plate(record, entry))


def _plate(record: Record, entry: Correction) -> list[str]:
    """Name a model, serial or refrigerant of a known machine that stands in the answer's words."""
    words = "".join(s.text for s in entry.segments).casefold()
    plain = "".join(ch for ch in words if ch.isalnum())
    out = []
    for machine in record.equipment:
        for name in ("model", "serial", "refrigerant"):
            value = getattr(machine, name)
            if value and "".join(ch for ch in value.casefold() if ch.isalnum()) in plain:
                out.append(f"{title(record, machine.id)} {name} {value}")
    return out


def times_asked(record: Record, question: Question) -> int:
    """Return how often a rule asks about a machine; its evidence may have changed with the answer."""
    same = (question.rule, question.equipment)
    return sum(1 for q in questions(record) if (q.rule, q.equipment) == same)
