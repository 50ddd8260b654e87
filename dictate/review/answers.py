"""From what a person answers to an entry of the log: typed and spoken words are read as speech is.

A typed value for a known reading is read by the number grammar, in its own unit where none is typed. An
answer to a question is put into the transcript where the question arose and read with everything around it;
a short one ("two pounds six") is also tried inside the sentences of `vocabulary/answers.toml`, and the first
one that closes the question counts. Nothing is guessed: what cannot be read is refused, in words that say how
to write it.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from dictate.errors import UsageError
from dictate.export import wording
from dictate.record.corrections import anchor, item_by_id
from dictate.record.visit import Clip, Correction, Movement, Reading, Record
from dictate.review.questions import Question, questions, title
from dictate.vocabulary.load import table

if TYPE_CHECKING:
    from dictate.mentions.narration import Narration
    from dictate.pipeline import Options, Progress
    from dictate.record.transcript import Segment

LONGEST_ANSWER = 1000
"""Characters of a typed answer."""

_UNITS: dict[str, tuple[str, ...]] = {
    "pressure": ("psi", "kPa", "bar", "mbar", "Pa", "inHg"),
    "vacuum": ("micron", "mbar", "Pa"),
    "temperature": ("degF", "degC"),
    "mass": ("lb", "oz", "g", "kg"),
    "flow": ("ft3/h", "gal/min", "L/min"),
    "duration": ("s", "min", "h"),
    "length": ("in", "ft", "mm"),
    "concentration": ("%", "ppm"),
}
_DIFFERENCES = {"degF": "delta_degF", "degC": "delta_degC"}
_OPEN = frozenset({"open", "ol", "o.l.", "o l", "over limit", "infinite", "infinity", "no continuity"})
_RELATIONS = (
    ("at least ", ">="), ("at most ", "<="), ("more than ", ">"), ("less than ", "<"), ("about ", "~"),
    ("around ", "~"), ("over ", ">"), ("above ", ">"), ("below ", "<"), ("under ", "<"),
)  # fmt: skip
_FIELDS: dict[str, tuple[str, ...]] = {
    "equipment": ("name", "type", "model", "serial", "refrigerant"),
    "parts": ("name", "part_number", "rating", "quantity"),
    "steps": ("status", "component"),
    "readings": ("stage", "component", "point"),
    "refrigerant": ("refrigerant", "direction"),
    "labour": ("start", "end", "hours", "travel_hours"),
    "visit": ("date", "site", "customer", "technician", "certificate"),
}
_NUMBERS = frozenset({"quantity", "hours", "travel_hours"})


class NotUnderstoodError(UsageError):
    """An answer that cannot be read, or that does not fit what was asked."""


@dataclass
class Reply:
    """What a person sent: an action on a question (by key) or on an item (by id)."""

    action: str
    key: str = ""
    target: str = ""
    choice: str = ""
    text: str = ""
    reason: str = ""
    equipment: str = ""
    fields: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class _Ask:
    """A reply with the record and the question that it is about."""

    record: Record
    question: Question | None
    reply: Reply
    text: str


Try = Callable[[Correction], Record]
"""Returns the record as it would stand with one more entry."""


def entry_for(
    record: Record, base: Record, reply: Reply, by: str, id: str, made_at: str, attempt: Try
) -> Correction:
    """Turn a reply into an entry of the log. Raises NotUnderstoodError."""
    text = " ".join(reply.text.split())
    if len(text) > LONGEST_ANSWER:
        raise NotUnderstoodError(f"the answer is longer than {LONGEST_ANSWER} characters.", "Shorten it.")
    question = _question(record, reply)
    blank = Correction(id=id, made_at=made_at, by=by, target=reply.key or reply.target, action=reply.action)
    if question is not None:
        blank.rule, blank.equipment = question.rule, question.equipment
    maker = {
        "confirm": _confirm, "choose": _choose, "type": _type, "strike": _strike, "done": _step,
        "not_done": _step, "so": _waive, "not_apply": _waive, "waive": _waive, "note": _note,
        "machine": _machine, "fields": _fields, "acknowledge": _acknowledge, "take_back": _take_back,
    }.get(reply.action)  # fmt: skip
    if reply.action == "type" and not reply.target and (question is None or question.rule is not None):
        return _answer(record, base, question, reply, text, blank, attempt)
    if maker is None:
        raise NotUnderstoodError(f"no answer {reply.action!r}.", "Use the buttons of the page.")
    return maker(_Ask(record, question, reply, text), blank)


def _question(record: Record, reply: Reply) -> Question | None:
    if not reply.key:
        return None
    found = next((q for q in questions(record) if q.key == reply.key), None)
    if found is None:
        raise NotUnderstoodError("this question is no longer open.", "Look at the list again.")
    return found


def _item(ask: _Ask) -> tuple[str, Any]:
    id = ask.question.target if ask.question is not None else ask.reply.target
    found = item_by_id(ask.record, id)
    if found is None:
        raise NotUnderstoodError(f"there is no {id!r} in this record.", "Look at the page again.")
    return found


def describe(kind: str, item: Any) -> str:
    """Say in a few words what an item is and how it stands."""
    if isinstance(item, Reading):
        return f"{wording.what(item)} {wording.value(item)}"
    if isinstance(item, Movement):
        return f"{item.direction} {wording.movement(item)}"
    if kind == "steps":
        return f"{wording.STEP_WORDS[item.step]}: {item.status.replace('_', ' ')}"
    if kind == "parts":
        return f"{item.name} {item.action}"
    if kind == "equipment":
        facts = (item.name or item.type, item.model, item.serial, item.refrigerant)
        return ", ".join(f for f in facts if f) or "the machine"
    if kind == "labour":
        hours = f", {wording.number(item.hours)} h" if item.hours is not None else ""
        return f"labour {item.start or '?'} to {item.end or '?'}{hours}"
    return str(getattr(item, "event", None) or getattr(item, "text", None) or kind)


# -- the kinds of answers ---------------------------------------------------------------------------------


def _confirm(ask: _Ask, out: Correction) -> Correction:
    kind, item = _item(ask)
    out.about = [anchor(ask.record, kind, item)]
    out.before, out.after = describe(kind, item), "confirmed"
    return out


def _choose(ask: _Ask, out: Correction) -> Correction:
    kind, item = _item(ask)
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
    return _changed(ask.record, kind, item, fields, out)


def _changed(
    record: Record, kind: str, item: Any, fields: dict[str, str | float | None], out: Correction
) -> Correction:
    after = item.model_copy(update=fields)
    # What was typed is checked by the record's own types before it is written down.
    type(item).model_validate(after.model_dump())
    out.action, out.fields = "change", fields
    out.about = [anchor(record, kind, item)]
    if isinstance(after, Reading) and "value" in fields:
        after.unit_assumed = False
    out.before, out.after = describe(kind, item), describe(kind, after)
    return out


def _type(ask: _Ask, out: Correction) -> Correction:
    kind, item = _item(ask)
    if kind not in ("readings", "refrigerant"):
        raise NotUnderstoodError(
            "a value cannot be typed here.", "Change the item's fields, or leave a note."
        )
    out.text = ask.text
    return _changed(ask.record, kind, item, read_value(ask.text, item), out)


def _strike(ask: _Ask, out: Correction) -> Correction:
    kind, item = _item(ask)
    out.about = [anchor(ask.record, kind, item)]
    out.before, out.after = describe(kind, item), "struck out: not said, or not meant"
    out.note = ask.text or None
    return out


def _step(ask: _Ask, out: Correction) -> Correction:
    if ask.question is None or ask.question.step is None:
        raise NotUnderstoodError("this question is not about a step.", "Type the answer instead.")
    status = "done" if ask.reply.action == "done" else "not_done"
    out.action = "step"
    out.fields = {"step": ask.question.step, "status": status, "component": None}
    out.before = ask.question.text
    name = wording.STEP_WORDS[ask.question.step]
    out.after = f"{name}: {'done, not said in the recording' if status == 'done' else 'not done'}"
    return out


def _waive(ask: _Ask, out: Correction) -> Correction:
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


def _note(ask: _Ask, out: Correction) -> Correction:
    if not ask.text:
        raise NotUnderstoodError("the note is empty.", "Type a few words.")
    about = f" (on: {ask.question.ask or ask.question.text})" if ask.question is not None else ""
    out.note, out.after = f"{ask.text}{about}", ask.text
    out.equipment = out.equipment or ask.reply.equipment or None
    return out


def _machine(ask: _Ask, out: Correction) -> Correction:
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


def _fields(ask: _Ask, out: Correction) -> Correction:
    if ask.reply.target == "visit":
        kind, item = "visit", ask.record.visit
    else:
        kind, item = _item(ask)
    fields: dict[str, str | float | None] = {}
    for name in _FIELDS.get(kind, ()):
        if name not in ask.reply.fields:
            continue
        value = _field(name, " ".join(ask.reply.fields[name].split())[:200])
        if value != getattr(item, name):
            fields[name] = value
    if not fields:
        raise NotUnderstoodError("nothing was changed.", "Change a field before saving.")
    try:
        if kind == "visit":
            type(item).model_validate({**item.model_dump(), **fields})
            out.action, out.fields = "visit", fields
            out.before = ", ".join(f"{n} {getattr(item, n) or 'not stated'}" for n in fields)
            out.after = ", ".join(f"{n} {v or 'not stated'}" for n, v in fields.items())
            return out
        return _changed(ask.record, kind, item, fields, out)
    except ValueError:
        raise NotUnderstoodError("a field holds something that it cannot hold.", "Mend it.") from None


def _field(name: str, text: str) -> str | float | None:
    if not text:
        return None
    if name in _NUMBERS:
        return _one_number(text)
    if name == "refrigerant":
        return _refrigerant(text)
    if name == "date":
        from datetime import date

        try:
            return date.fromisoformat(text).isoformat()
        except ValueError:
            raise NotUnderstoodError(f"{text!r} is not a date.", "Write it like 2026-03-04.") from None
    return text


def _acknowledge(ask: _Ask, out: Correction) -> Correction:
    if not ask.text:
        raise NotUnderstoodError("the customer's name is missing.", "Type the name.")
    out.target, out.text, out.after = "visit", ask.text, f"seen by {ask.text}"
    return out


def _take_back(ask: _Ask, out: Correction) -> Correction:
    id = ask.question.target if ask.question is not None else ask.reply.target
    entry = next((c for c in ask.record.corrections if c.id == id), None)
    if entry is None:
        raise NotUnderstoodError(f"there is no answer {id!r}.", "Look at the list of answers.")
    out.action, out.target, out.rule, out.equipment = "withdraw", id, None, None
    out.before, out.after = entry.after, f"answer {id} taken back"
    return out


# -- values -----------------------------------------------------------------------------------------------


def read_value(text: str, item: Any) -> dict[str, str | float | None]:
    """Read a typed value for a reading or a movement; returns its fields. Raises NotUnderstoodError.

    "4.3 ohm", "two pounds six", "about 38", "OL"; without a unit the item's own counts.
    """
    if not text:
        raise NotUnderstoodError("no value was typed.", "Type it like 4.3 ohm or two pounds six.")
    low = text.lower().strip(" .")
    if isinstance(item, Reading) and low in _OPEN:
        if item.quantity != "resistance":
            raise NotUnderstoodError("only a resistance can be open.", "Type the value with its unit.")
        return {"state": "open", "value": None}
    relation = "="
    for words, sign in _RELATIONS:
        if low.startswith(words):
            relation, low = sign, low[len(words) :]
            text = text.strip()[len(words) :]
            break
    value, unit = _value_and_unit(text, item)
    fields: dict[str, str | float | None] = {"value": value, "unit": unit}
    if isinstance(item, Reading):
        fields |= {"relation": relation, "state": "value"}
        if item.quantity == "pressure" and item.reference in ("gauge", "vacuum_depth", None):
            fields["reference"] = "vacuum_depth" if unit == "inHg" else "gauge"
    elif relation != "=":
        raise NotUnderstoodError("an amount of refrigerant needs a plain number.", "Type it like 2 lb 6 oz.")
    elif name := _refrigerant_in(text):
        fields["refrigerant"] = name
    return fields


def _value_and_unit(text: str, item: Any) -> tuple[float, str]:
    from dictate.mentions.narration import Narration
    from dictate.mentions.quantities import find_quantities

    narration = Narration.from_text(text)
    found = [q for q in find_quantities(narration) if q.kind == "reading"]
    wanted = "mass" if isinstance(item, Movement) else item.quantity
    allowed = _UNITS.get(wanted, (item.unit,))
    if not found:
        return _one_number(text, narration), item.unit or _no_unit(wanted)
    if len(found) > 1:
        raise NotUnderstoodError(f"{text!r} holds more than one value.", "Type one value.")
    q = found[0]
    for unit, _ in q.means:
        real = _DIFFERENCES.get(unit, unit) if str(item.unit).startswith("delta_") else unit
        if real == item.unit or (real in allowed and item.unit not in [m for m, _ in q.means]):
            if q.reasons and not (wanted == "mass" and len(q.parts) == 2):
                raise NotUnderstoodError(
                    f"{text!r} can be read in more than one way: {'; '.join(q.reasons)}.",
                    "Write it in digits.",
                )
            _nothing_else(narration, q.start, q.end, text)
            return q.in_unit(unit), real
    raise NotUnderstoodError(
        f"{text!r} has a unit that does not fit: {wanted.replace('_', ' ')} is asked for.",
        f"Use one of: {', '.join(str(u) for u in allowed)}.",
    )


def _no_unit(wanted: str) -> str:
    raise NotUnderstoodError(f"the unit of the {wanted} is missing.", "Type it like 2 lb 6 oz.")


def _nothing_else(narration: Narration, start: int, end: int, text: str) -> None:
    """Refuse a typed value that has another number beside it."""
    from dictate.mentions.refrigerants.named import find_refrigerants
    from dictate.mentions.spoken_numbers import find_numbers

    names = {t for r in find_refrigerants(narration) for t in range(r.start, r.end)}
    beside = [
        n
        for n in find_numbers(narration)
        if not (start <= n.start < end) and n.start not in names and not n.pronoun
    ]
    if beside:
        raise NotUnderstoodError(f"{text!r} holds more than one number.", "Type one value with its unit.")


def _one_number(text: str, narration: Narration | None = None) -> float:
    from dictate.mentions.narration import Narration
    from dictate.mentions.spoken_numbers import find_numbers

    narration = narration or Narration.from_text(text)
    numbers = find_numbers(narration)
    if not numbers:
        raise NotUnderstoodError(f"no number was found in {text!r}.", "Type it like 4.3 ohm or 620.")
    if len(numbers) > 1 or numbers[0].alternatives or numbers[0].form in ("two_digits", "clock", "ordinal"):
        raise NotUnderstoodError(f"{text!r} can be read in more than one way.", "Write it in digits.")
    return numbers[0].value


def _refrigerant_in(text: str) -> str | None:
    from dictate.mentions.narration import Narration
    from dictate.mentions.refrigerants.named import find_refrigerants

    names = find_refrigerants(Narration.from_text(text))
    return names[0].name if len(names) == 1 and not names[0].reasons else None


def _refrigerant(text: str) -> str:
    name = _refrigerant_in(text)
    if name is None:
        raise NotUnderstoodError(f"{text!r} is no refrigerant that is known here.", "Write it like R-404A.")
    return name


# -- answers in words -------------------------------------------------------------------------------------


def _answer(
    record: Record,
    base: Record,
    question: Question | None,
    reply: Reply,
    text: str,
    out: Correction,
    attempt: Try,
) -> Correction:
    """Read a typed answer to a question, or a free addition, as if it had been said where it belongs."""
    if not text:
        raise NotUnderstoodError("the answer is empty.", "Type it as you would say it.")
    known = table("answers")
    low = text.lower().strip(" .!")
    if question is not None and question.step is not None:
        for said, action in (("yes", "done"), ("no", "not_done")):
            if low in known[said]["said"]:
                out.text = text
                return _step(_Ask(record, question, Reply(action), text), out)
    out.text, out.before = text, (question.ask or question.text) if question is not None else None
    out.equipment = out.equipment or reply.equipment or None
    if out.equipment is not None and out.equipment not in {e.id for e in record.equipment}:
        raise NotUnderstoodError("that machine is not in this visit.", "Choose one of the list.")
    if question is None and out.equipment is None:
        tried = settle_place(record, base, _said(text, out, record), attempt)
        took = taken(attempt(tried), tried)
        if not took:
            raise _nothing_read(text)
        tried.after = "; ".join(took)
        return tried
    out.after_segment = place_of(record, base, question)
    leads = known["leads"].get(question.rule, []) if question is not None and question.rule else []
    best: tuple[tuple[bool, int], Correction] | None = None
    if set(low.replace(",", " ").split()) & set(known["never"]["words"]):
        leads = []
    for sentence in [text, *(lead.format(text.rstrip(" .")) for lead in leads)]:
        tried = _said(sentence, out.model_copy(deep=True), record)
        after = attempt(tried)
        took = taken(after, tried)
        if not took or (sentence != text and not _brings(after, tried)):
            continue
        tried.after = "; ".join(took)
        closes = question is None or _asked(after, question) < _asked(record, question)
        worth = (closes, _worth(after, tried, question))
        if best is None or worth > best[0]:
            best = worth, tried
        if worth[0] and worth[1] >= max(1, _numbers(text)):
            break  # everything in it was read, and the question is closed
    if best is None:
        raise _nothing_read(text)
    return best[1]


def _nothing_read(text: str) -> NotUnderstoodError:
    return NotUnderstoodError(
        f"no value and no step could be read from {text!r}.",
        "Write it as you would say it, with the unit, or leave it as a note.",
    )


def _topic(words: str, entry: Correction) -> Segment:
    """Return what the question was about as a stretch of its own, so that it is plain that nobody said it."""
    from dictate.record.transcript import Segment, Word

    clip = entry.clip.id if entry.clip is not None else ""
    return Segment(clip=clip, text=words, words=[Word(text=w) for w in words.split()], source="question")


MOST_PLACES = 12
MOST_WORDS = 6000
"""Beyond these an answer that was given to no question goes to the end without looking for its place."""


def settle_place(record: Record, base: Record, entry: Correction, attempt: Try) -> Correction:
    """Find where an answer belongs that was given to no question, and to which machine.

    It is tried at every open question. The place counts where it closes that question and more is read there
    than at the end; where two machines would do, it stays at the end and the machine is asked for. Words that
    name their machine need no such help.
    """
    if entry.fields.get("names_machine") or sum(len(s.words) for s in base.transcript) > MOST_WORDS:
        return entry
    topics = table("answers")["topics"]
    asked = [q for q in questions(record) if q.rule not in (None, "input")]
    if len(record.equipment) > 1:
        asked = [q for q in asked if q.rule in topics]
    found: list[tuple[int, Question, Correction]] = []
    for question in asked[:MOST_PLACES]:
        topic = topics.get(question.rule)
        for before in (None, topic) if topic else (None,):
            tried = entry.model_copy(deep=True)
            tried.after_segment = place_of(record, base, question)
            tried.rule, tried.equipment = question.rule, question.equipment
            if before is not None:
                tried.segments = [_topic(before, entry), *tried.segments]
            after = attempt(tried)
            if _asked(after, question) >= _asked(record, question):
                break  # the topic's own words must not be what closes it
            found.append((_worth(after, tried, question), question, tried))
    if not found:
        return entry
    most = max(worth for worth, _, _ in found)
    best = [(q, tried) for worth, q, tried in found if worth == most]
    if len({q.equipment for q, _ in best}) > 1 or most < _worth(attempt(entry), entry, None):
        return entry
    return best[0][1]


def _worth(record: Record, entry: Correction, question: Question | None) -> int:
    """Weigh what was taken from an answer: values and names count for it, steps not asked for against it.

    "150 psi and it held" says something of the pressure test that was asked about, not of a vacuum.
    """
    clip = entry.clip.id if entry.clip is not None else ""
    wanted = question.step if question is not None else None
    steps = [s for s in record.steps if s.at.clip == clip]
    extra = sum(1 for s in steps if wanted is not None and s.step != wanted)
    doubts = sum(1 for r in record.readings if r.at.clip == clip and r.review)
    doubts += sum(1 for m in record.refrigerant if m.at.clip == clip and m.review)
    return _brings(record, entry) - doubts - extra


def _numbers(text: str) -> int:
    from dictate.mentions.narration import Narration
    from dictate.mentions.spoken_numbers import find_numbers

    coded = sum(any(c.isdigit() for c in word) for word in text.split())
    return max(len(find_numbers(Narration.from_text(text))), coded)


def _brings(record: Record, entry: Correction) -> int:
    """Count the values and names that an answer brought."""
    clip = entry.clip.id if entry.clip is not None else ""
    values = sum(1 for r in record.readings if r.at.clip == clip)
    values += sum(1 for m in record.refrigerant if m.at.clip == clip and m.value is not None)
    return values + len(_plate(record, entry))


def _asked(record: Record, question: Question) -> int:
    """Return how often a rule asks about a machine; its evidence may have changed with the answer."""
    same = (question.rule, question.equipment)
    return sum(1 for q in questions(record) if (q.rule, q.equipment) == same)


def _said(sentence: str, out: Correction, record: Record) -> Correction:
    from dictate.mentions.narration import segments_of

    sentence = sentence if sentence[-1:] in ".?!" else f"{sentence}."
    id = next_clip(record)
    digest = hashlib.sha256(sentence.encode()).hexdigest()
    out.action = "answer"
    out.clip = Clip(id=id, file=f"typed by {out.by}", sha256=digest)
    out.segments = list(segments_of([sentence], id))
    if names_machine(out.segments):
        out.fields = {"names_machine": 1.0}
    return out


def next_clip(record: Record) -> str:
    """Return the clip id of the next answer: a1, a2 and so on, never one that was used before."""
    used = sum(1 for c in record.corrections if c.action == "answer")
    return f"a{used + 1}"


def names_machine(segments: Sequence[Segment]) -> bool:
    """Tell whether words alone name a machine."""
    from dictate.mentions import find

    return any(e.type or e.name or e.model or e.serial for e in find(segments).equipment)


def place_of(record: Record, base: Record, question: Question | None) -> int | None:
    """Return the index into the base transcript behind which an answer belongs, null for the end.

    That is the end of the sentence in which the question arose, or the last word about its machine.
    """
    if question is None:
        return None
    own = {c.id for c in base.clips}
    spots = [a.segment for a in question.at if a.segment is not None and a.clip in own]
    if not spots and question.equipment is not None:
        things: list[Any] = [*record.readings, *record.steps, *record.parts, *record.refrigerant]
        spots = [
            t.at.segment
            for t in things
            if t.equipment == question.equipment and t.at.segment is not None and t.at.clip in own
        ]
    if not spots:
        return None
    spot = sum(1 for s in record.transcript[: max(spots) + 1] if s.clip in own) - 1
    last = len(base.transcript) - 1
    while spot < last and not _sentence_ends(base.transcript[spot], base.transcript[spot + 1]):
        spot += 1
    return min(spot, last)


def _sentence_ends(here: Segment, there: Segment) -> bool:
    return here.text.rstrip()[-1:] in ".?!" or here.clip != there.clip or there.text.lstrip()[:1].isupper()


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


def login(by: str | None) -> str:
    """Return who answers: the name as given, else the login name. Raises UsageError."""
    import getpass

    name = " ".join((by or "").split())
    if not name:
        try:
            name = getpass.getuser()
        except (OSError, KeyError):
            raise UsageError("who answers is not known.", "Say it with --by NAME.") from None
    if len(name) > 80:
        raise UsageError("the name is longer than 80 characters.", "Shorten it.")
    return name


def spoken(
    folder: Path, paths: Sequence[Path], by: str, options: Options, *, progress: Progress | None = None
) -> list[str]:
    """Add recorded answers to a visit: hear them, put them into its log, keep their sound.

    Returns what was taken from them. Raises the errors of hearing (InputError, NoSpeechError, ModelError).
    """
    from dictate.review.desk import Desk
    from dictate.speech import review_copy

    desk = Desk(folder, by)
    out: list[str] = []
    for path in paths:
        clips, segments = _hear([path], options, progress)
        entry = desk.say(clips[0], segments)
        out += (entry.after or "").split("; ")
        clip = clips[0].model_copy(update={"id": entry.clip.id if entry.clip else clips[0].id})
        if clip.duration_s is not None:
            review_copy(path, {clip.sha256: clip}, desk.folder / "sound")
    return [o for o in out if o]


def _hear(
    paths: Sequence[Path], options: Options, progress: Progress | None
) -> tuple[list[Clip], list[Segment]]:
    from dictate.errors import InputError, NoSpeechError
    from dictate.pipeline import heard

    clips, segments, problems = heard(paths, options, progress=progress)
    if problems:
        raise InputError(f"{problems[0].file}: {problems[0].error}", problems[0].advice)
    if not clips or not segments:
        raise NoSpeechError("nobody speaks in the answer.", "Record it again.")
    return clips, segments
