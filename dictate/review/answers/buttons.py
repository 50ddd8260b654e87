"""Answers that one key gives: right as read, the other value, done, set aside, taken back."""

from __future__ import annotations

from dictate.export import wording
from dictate.record.corrections import anchor, item_by_id
from dictate.record.visit import Correction, Reading
from dictate.review.answers.items import changed, describe, item_of
from dictate.review.answers.reply import Ask, NotUnderstoodError
from dictate.review.questions import title


def confirm(ask: Ask, out: Correction) -> Correction:
    """Take the item as right, as it was read."""
    kind, item = item_of(ask)
    out.about = [anchor(ask.record, kind, item)]
    out.before, out.after = describe(kind, item), "confirmed"
    return out


def choose(ask: Ask, out: Correction) -> Correction:
    """Give the item the other value that its words can mean: "two fifty" may be 250 or 2.50."""
    kind, item = item_of(ask)
    options = getattr(item, "candidates", [])
    if not ask.reply.choice.isdigit() or int(ask.reply.choice) >= len(options):
        raise NotUnderstoodError("that choice is not on the list.", "Choose one of the buttons.")
    option = options[int(ask.reply.choice)]
    if option.value is None:
        raise NotUnderstoodError("that choice has no value.", "Type the value.")
    fields: dict[str, str | float | None] = {"value": option.value}
    if option.unit is not None:
        fields["unit"] = option.unit
    if isinstance(item, Reading):
        fields["state"] = "value"
    return changed(ask.record, kind, item, fields, out)


def strike(ask: Ask, out: Correction) -> Correction:
    """Strike an item out that was not said, or not meant."""
    kind, item = item_of(ask)
    out.about = [anchor(ask.record, kind, item)]
    out.before, out.after = describe(kind, item), "struck out: not said, or not meant"
    out.note = ask.text or None
    return out


def step(ask: Ask, out: Correction) -> Correction:
    """Say that a step was done, or was not, that the recording does not tell."""
    if ask.question is None or ask.question.step is None:
        raise NotUnderstoodError("this question is not about a step.", "Type the answer instead.")
    status = "done" if ask.reply.action == "done" else "not_done"
    out.action = "step"
    out.fields = {"step": ask.question.step, "status": status, "component": None}
    out.before = ask.question.text
    name = wording.STEP_WORDS[ask.question.step]
    out.after = f"{name}: {'done, not said in the recording' if status == 'done' else 'not done'}"
    return out


def waive(ask: Ask, out: Correction) -> Correction:
    """Set a question aside, with the reason."""
    if ask.question is None or ask.question.rule is None:
        raise NotUnderstoodError("this cannot be set aside.", "Confirm, change or strike it.")
    ready = {"so": "it is so, as measured", "not_apply": "does not apply"}.get(ask.reply.action, "")
    given = " ".join((ask.reply.reason or ask.text).split())
    reason = ": ".join(r for r in (ready, given) if r)
    if not reason:
        raise NotUnderstoodError("a question is set aside with a reason.", "Choose or type the reason.")
    out.action, out.note, out.after = "waive", reason, reason
    out.before = ask.question.ask or ask.question.text
    out.message = ask.question.text
    check = next((c for c in ask.record.checks if c.id == ask.question.target), None)
    if check is not None:
        out.fields = {"outcome": check.outcome, "evidence": " ".join(check.evidence)}
    return out


def note(ask: Ask, out: Correction) -> Correction:
    """Leave a remark, on a question or on the visit."""
    if not ask.text:
        raise NotUnderstoodError("the note is empty.", "Type a few words.")
    about = f" (on: {ask.question.ask or ask.question.text})" if ask.question is not None else ""
    out.note, out.after = f"{ask.text}{about}", ask.text
    out.equipment = out.equipment or ask.reply.equipment or None
    return out


def machine(ask: Ask, out: Correction) -> Correction:
    """Put items to one of the machines of the visit."""
    ids = ask.question.targets if ask.question is not None else [ask.reply.target]
    if ask.reply.choice not in {e.id for e in ask.record.equipment}:
        raise NotUnderstoodError("that machine is not in this visit.", "Choose one of the buttons.")
    for id in ids:
        found = item_by_id(ask.record, id)
        if found is None:
            raise NotUnderstoodError(f"there is no {id!r} in this record.", "Look at the page again.")
        out.about.append(anchor(ask.record, *found))
    out.fields = {"equipment": ask.reply.choice}
    out.before = ask.question.text if ask.question is not None else ask.reply.target
    out.after = f"belongs to {title(ask.record, ask.reply.choice)}"
    return out


def acknowledge(ask: Ask, out: Correction) -> Correction:
    """Write down which customer saw the record."""
    if not ask.text:
        raise NotUnderstoodError("the customer's name is missing.", "Type the name.")
    out.target, out.text, out.after = "visit", ask.text, f"seen by {ask.text}"
    return out


def take_back(ask: Ask, out: Correction) -> Correction:
    """Take an earlier answer back."""
    id = ask.question.target if ask.question is not None else ask.reply.target
    entry = next((c for c in ask.record.corrections if c.id == id), None)
    if entry is None:
        raise NotUnderstoodError(f"there is no answer {id!r}.", "Look at the list of answers.")
    out.action, out.target, out.rule, out.equipment = "withdraw", id, None, None
    out.before, out.after = entry.after, f"answer {id} taken back"
    return out
