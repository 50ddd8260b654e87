"""What people changed after the recording: an append-only log beside the record, and its replay.

`record.json` is never touched. `corrections.jsonl` lies beside it, one entry of the log a line (UTF-8 JSON,
see `visit.Correction`); an entry is only ever added, and even taking an answer back is one. `replay` applies
the log to the record as it was first made, so the words, the sound and the first reading of them stay what
they were. An entry finds its item by id, words and place; one that fits nothing any more (the record was
written up anew) is not applied and is said in `problems[]`.

Actions of the log:

| action | does |
| --- | --- |
| `confirm` | the items in `about` are right: their reasons to look are removed |
| `change` | the items get the values in `fields`; their reasons to look are removed |
| `strike` | a reading becomes `retracted`, any other item is taken out |
| `machine` | the items belong to the machine in `fields["equipment"]` |
| `step` | a step that was done, or was not, and was not said: `fields["step"]`, `fields["status"]` |
| `answer` | typed or spoken words, read as if they had been said right there |
| `waive` | a question is set aside with the reason in `note` |
| `note` | a remark |
| `visit` | a fact about the visit, in `fields` |
| `acknowledge` | the customer (`text`) saw the record |
| `withdraw` | takes back the entry named in `target` |
"""

from __future__ import annotations

import contextlib
import copy
import hashlib
import os
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from typing import IO, Any, get_args

from dictate.errors import RecordError
from dictate.record.base import At
from dictate.record.file import writing
from dictate.record.transcript import Segment
from dictate.record.visit import (
    Acknowledgement,
    Amount,
    Anchor,
    Candidate,
    Check,
    Clip,
    Correction,
    Equipment,
    Labour,
    Problem,
    Reading,
    Record,
    Remark,
    Step,
    StepCode,
)
from dictate.record.visit import Test as RecordTest
from dictate.units import UCUM, convert

FILE = "corrections.jsonl"
OPEN = ("problem", "missing", "unsure")
ReadAgain = Callable[[Sequence[Clip], Sequence[Segment]], Record]
"""Reads a transcript as the pipeline does, without checking it."""

_LISTS = {"readings": "r", "refrigerant": "m", "steps": "s", "parts": "p", "events": "v", "conclusions": "n"}
_STEP_ORDER = {code: n for n, code in enumerate(get_args(StepCode))}
_ANY_TIME = frozenset({"cleaned", "adjusted", "part_replaced"})


# -- the file ---------------------------------------------------------------------------------------------


def log_path(record_file: Path) -> Path:
    """Return where the log of a record lies: beside `record.json`, or in the folder that holds it."""
    folder = record_file if record_file.is_dir() else record_file.parent
    return folder / FILE


def load(path: Path) -> list[Correction]:
    """Read a log; [] when there is none. Raises RecordError.

    A last line that a power loss cut off never counted and is left out.
    """
    from pydantic import ValidationError

    try:
        data = path.read_bytes()
    except FileNotFoundError:
        return []
    except OSError as error:
        raise RecordError(f"{path} cannot be read: {error}.", "Check its permissions.") from None
    lines = data.split(b"\n")
    entries = []
    for number, line in enumerate(lines, start=1):
        if not line.strip():
            continue
        try:
            entries.append(Correction.model_validate_json(line))
        except ValidationError as error:
            if number == len(lines):
                break
            first = error.errors()[0]
            raise RecordError(
                f"{path}, line {number} is no entry of the log: {first['msg']}.",
                "Put the file back from a backup; the record itself is untouched.",
            ) from None
    return entries


def append(path: Path, entry: Correction) -> None:
    """Add one entry at the end of the log and see it onto the disk. Raises OutputError."""
    with writing(path.parent):
        data = entry.model_dump_json(exclude_defaults=True).encode() + b"\n"
        with path.open("ab+") as file:
            file.seek(0, os.SEEK_END)
            size = file.tell()
            if size:
                file.seek(size - 1)
                if file.read(1) != b"\n":
                    # The power went while the last entry was written: it never counted, and goes.
                    file.seek(0)
                    kept = file.read().rfind(b"\n") + 1
                    file.truncate(kept)
            file.write(data)
            file.flush()
            os.fsync(file.fileno())


@contextlib.contextmanager
def locked(path: Path) -> Iterator[None]:
    """Hold the log for one save, so that two programs cannot both pass the test of what was shown."""
    with writing(path.parent), path.with_name(f".{path.name}.lock").open("a+b") as file:
        _lock(file)
        yield


def _lock(file: IO[bytes]) -> None:
    """Wait for the lock of an open file; closing the file gives it back."""
    if os.name == "nt":  # pragma: no cover - the other system
        import msvcrt

        file.seek(0)
        msvcrt.locking(file.fileno(), msvcrt.LK_LOCK, 1)  # type: ignore[attr-defined]
    else:
        import fcntl

        fcntl.flock(file.fileno(), fcntl.LOCK_EX)


def state_hash(base_fingerprint: str, path: Path) -> str:
    """Return the hash of a record together with its log as both stand now: what a save must name."""
    try:
        log = path.read_bytes()
    except FileNotFoundError:
        log = b""
    return hashlib.sha256(base_fingerprint.encode() + b"\n" + log).hexdigest()


def next_id(log: Sequence[Correction]) -> str:
    """Return the id of the next entry: x1, x2 and so on."""
    return f"x{len(log) + 1}"


def active(log: Sequence[Correction]) -> list[Correction]:
    """Return the entries that count: neither taken back nor a taking back."""
    gone: set[str] = set()
    for entry in reversed(log):
        if entry.action == "withdraw" and entry.id not in gone:
            gone.add(entry.target)
    return [e for e in log if e.id not in gone and e.action != "withdraw"]


# -- anchors ----------------------------------------------------------------------------------------------


def anchor(record: Record, kind: str, item: Any) -> Anchor:
    """Return what finds an item of the record again."""
    if kind == "labour":
        return Anchor(kind="labour", id="labour")
    at = item.at or At()
    clip = next((c.sha256 for c in record.clips if c.id == at.clip), None)
    return Anchor(
        kind=kind,
        id=item.id,
        heard=getattr(item, "heard", ""),
        clip=clip,
        start_s=at.start_s,
        first_word=at.first_word,
    )


def find(record: Record, wanted: Anchor) -> Any | None:
    """Return the item that an anchor means, or null when none or more than one fits."""
    if wanted.kind == "labour":
        return record.labour
    items = [*record.equipment] if wanted.kind == "equipment" else list(getattr(record, wanted.kind))
    for item in items:
        if item.id == wanted.id and getattr(item, "heard", "") == wanted.heard:
            return item
    fits = [i for i in items if wanted.heard and i.heard == wanted.heard and _same_place(record, i, wanted)]
    return fits[0] if len(fits) == 1 else None


def _same_place(record: Record, item: Any, wanted: Anchor) -> bool:
    at: At = item.at or At()
    clip = next((c.sha256 for c in record.clips if c.id == at.clip), None)
    if clip != wanted.clip:
        return False
    if at.start_s is None or wanted.start_s is None:
        return at.start_s == wanted.start_s and at.first_word == wanted.first_word
    return abs(at.start_s - wanted.start_s) < 0.5


def item_by_id(record: Record, id: str) -> tuple[str, Any] | None:
    """Return (list name, item) for an id of the record, or null."""
    if id == "labour" and record.labour is not None:
        return "labour", record.labour
    for kind in (*_LISTS, "tests", "equipment"):
        for item in getattr(record, kind):
            if item.id == id:
                return kind, item
    return None


# -- replay -----------------------------------------------------------------------------------------------


def replay(base: Record, log: Sequence[Correction], read_again: ReadAgain) -> Record:
    """Return the record as it stands after the log, unchecked; `base` is left as it is."""
    record = _copied(base)
    entries = active(log)
    answers = [e for e in entries if e.action == "answer" and e.clip is not None and e.segments]
    if answers:
        _read_answers(record, answers, read_again)
    for entry in entries:
        if not _apply(record, entry, base.visit.revision + log.index(entry)):
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


def _copied(record: Record) -> Record:
    """Copy a record deeply, but for what is never changed in place: words, clips and verdicts."""
    shared = ("transcript", "clips", "checks", "export")
    made = record.model_copy(
        update={n: copy.deepcopy(getattr(record, n)) for n in type(record).model_fields if n not in shared}
    )
    for name in shared[:3]:
        setattr(made, name, list(getattr(record, name)))
    return made


def _apply(record: Record, entry: Correction, revision: int) -> bool:
    """Apply one entry; false when it means an item that is not there."""
    found = [find(record, a) for a in entry.about]
    items = [i for i in found if i is not None]
    if len(items) < len(found):
        return False
    if entry.action == "confirm":
        for item in items:
            item.review = []
    elif entry.action == "change":
        for item in items:
            _change(record, item, entry)
    elif entry.action == "strike":
        for place, item in zip(entry.about, items, strict=True):
            _strike(record, place.kind, item)
    elif entry.action == "machine":
        for item in items:
            item.equipment = entry.fields.get("equipment")
        ids = {a.id for a in entry.about}
        for test in record.tests:
            if test.equipment is None and ids & set(test.readings):
                test.equipment = _text(entry.fields.get("equipment"))
    elif entry.action == "step":
        _add_step(record, entry)
    elif entry.action == "note" and entry.note:
        record.remarks.append(
            Remark(kind="note", text=f"{entry.note} ({entry.by})", equipment=entry.equipment)
        )
    elif entry.action == "visit":
        for name, value in entry.fields.items():
            setattr(record.visit, name, value)
    elif entry.action == "acknowledge" and entry.text:
        record.acknowledgement = Acknowledgement(name=entry.text, at=entry.made_at, revision=revision)
    return True


def _text(value: str | float | None) -> str | None:
    return None if value is None else str(value)


def _change(record: Record, item: Any, entry: Correction) -> None:
    old = (getattr(item, "value", None), getattr(item, "unit", None))
    for name, value in entry.fields.items():
        setattr(item, name, value)
    if hasattr(item, "review") and (entry.fields.keys() & {"value", "state"} or not hasattr(item, "value")):
        item.review = []
    if not isinstance(item, Reading):
        return
    if "value" in entry.fields or "state" in entry.fields:
        item.unit_assumed = False
        item.ucum = UCUM.get(item.unit)
        was = Candidate(
            value=old[0], unit=old[1], heard=item.heard, why=f"as first read, changed by {entry.by}"
        )
        item.candidates = [was]
        _follow(record, item, old)


def _follow(record: Record, reading: Reading, old: tuple[float | None, str | None]) -> None:
    """Carry a changed reading into the tests that were put together from it."""
    for test in record.tests:
        if reading.id not in test.readings or old[0] is None or old[1] is None:
            continue
        new = None if reading.value is None else Amount(value=reading.value, unit=reading.unit)
        for name in ("start", "end", "reached", "start_temperature", "end_temperature"):
            if _is(getattr(test, name), old):
                setattr(test, name, new)
        if test.minutes is not None and reading.quantity == "duration":
            before = convert(old[0], old[1], "min")
            if abs(before - test.minutes) < 1e-6:
                value = reading.value
                test.minutes = None if value is None else convert(value, reading.unit, "min")
        if test.kind == "evacuation" and reading.quantity == "vacuum":
            _reached_again(record, test)


def _is(amount: Amount | None, value: tuple[float | None, str | None]) -> bool:
    return amount is not None and amount.unit == value[1] and amount.value == value[0]


def _reached_again(record: Record, test: RecordTest) -> None:
    """Set the deepest vacuum of an attempt from its readings as they stand."""
    values = [
        (convert(r.value, r.unit, "micron"), r)
        for r in record.readings
        if r.id in test.readings and r.quantity == "vacuum" and r.role == "measured" and r.value is not None
    ]
    if values:
        deepest = min(values, key=lambda v: v[0])[1]
        test.reached = Amount(value=deepest.value or 0.0, unit=deepest.unit)


def _strike(record: Record, kind: str, item: Any) -> None:
    if isinstance(item, Reading):
        old = (item.value, item.unit)
        for test in record.tests:
            if item.id in test.readings:
                for name in ("start", "end", "reached", "start_temperature", "end_temperature"):
                    if _is(getattr(test, name), old):
                        setattr(test, name, None)
                test.readings = [r for r in test.readings if r != item.id]
                if test.kind == "evacuation":
                    _reached_again(record, test)
        item.role, item.review = "retracted", []
    elif kind == "labour":
        record.labour = None
    else:
        setattr(record, kind, [other for other in getattr(record, kind) if other is not item])


def _add_step(record: Record, entry: Correction) -> None:
    step = Step.model_validate(
        {
            "id": f"{entry.id}.s1",
            "equipment": entry.equipment,
            "step": entry.fields.get("step"),
            "status": entry.fields.get("status"),
            "component": entry.fields.get("component"),
            "heard": f"answered by {entry.by}",
        }
    )
    rank = _STEP_ORDER[step.step]
    place = len(record.steps)
    for n, other in enumerate(record.steps):
        if (
            other.equipment == step.equipment
            and other.step not in _ANY_TIME
            and _STEP_ORDER[other.step] > rank
        ):
            place = n
            break
    record.steps.insert(place, step)


# -- answers in words -------------------------------------------------------------------------------------


def _read_answers(record: Record, answers: Sequence[Correction], read_again: ReadAgain) -> None:
    """Read the transcript again with the answers where they belong, and take over what they brought.

    Everything that was there stays as it is, with its id; new items get ids of their answer (`x3.r1`).
    """
    order: list[tuple[int | None, Segment]] = []
    by_clip = {entry.clip.id: entry for entry in answers if entry.clip is not None}
    count = len(record.transcript)

    def put(after: int | None) -> None:
        for entry in answers:
            spot = entry.after_segment
            if spot is not None and not 0 <= spot < count:
                spot = None
            if spot == after and entry.clip is not None:
                order.extend((None, s.model_copy(update={"clip": entry.clip.id})) for s in entry.segments)

    for n, segment in enumerate(record.transcript):
        order.append((n, segment))
        put(n)
    put(None)
    moved = {old: new for new, (old, _) in enumerate(order) if old is not None}
    for place in _places(record):
        if place.segment is not None:
            place.segment = moved.get(place.segment)
    record.transcript = [segment for _, segment in order]
    record.clips = [*record.clips, *(e.clip for e in answers if e.clip is not None)]
    for start, end in _windows(record, by_clip):
        read = _copied(read_again(record.clips, record.transcript[start:end]))
        for place in _places(read):
            if place.segment is not None:
                place.segment += start
        _take_over(record, read, by_clip, whole=end - start == len(record.transcript))


WHOLE_WORDS = 4000
AROUND = 15
"""A longer transcript is read again only around the answers, so many stretches before and after."""


def _windows(record: Record, by_clip: dict[str, Correction]) -> list[tuple[int, int]]:
    """Return the parts [start, end) of the transcript that are read again with the answers in them."""
    count = len(record.transcript)
    if sum(len(s.words) for s in record.transcript) <= WHOLE_WORDS:
        return [(0, count)]
    out: list[tuple[int, int]] = []
    for n, segment in enumerate(record.transcript):
        if segment.clip not in by_clip:
            continue
        start, end = max(0, n - AROUND), min(count, n + AROUND + 1)
        if out and start <= out[-1][1]:
            out[-1] = (out[-1][0], end)
        else:
            out.append((start, end))
    return out


def _places(record: Record) -> Iterator[At]:
    for kind in (*_LISTS, "tests", "remarks", "equipment"):
        for item in getattr(record, kind):
            if item.at is not None:
                yield item.at
    if record.labour is not None:
        yield from record.labour.at


def _key(item: Any) -> tuple[Any, ...]:
    at = item.at or At()
    which = getattr(item, "quantity", None) or getattr(item, "step", None) or getattr(item, "name", None)
    return (at.clip, at.segment, at.first_word, at.last_word, which, getattr(item, "role", None) == "target")


def _take_over(record: Record, read: Record, by_clip: dict[str, Correction], *, whole: bool) -> None:
    machines = _machines(record, read, by_clip, whole=whole)
    ids: dict[str, str] = {}
    fresh: set[str] = set()
    for kind, letter in _LISTS.items():
        have = {_key(i): i for i in getattr(record, kind)}
        numbers: dict[str, int] = {}
        merged = list(getattr(record, kind))
        for item in getattr(read, kind):
            entry = by_clip.get(item.at.clip or "")
            if entry is None:
                known = have.get(_key(item))
                if known is not None:
                    ids[item.id] = known.id
                    _told_by_answer(known, item)
                continue
            numbers[entry.id] = numbers.get(entry.id, 0) + 1
            old, new = item.id, f"{entry.id}.{letter}{numbers[entry.id]}"
            ids[old], item.id = new, new
            fresh.add(new)
            item.equipment = _machine_of(record, entry, item.equipment, machines)
            spot = next((n for n, i in enumerate(merged) if _after(i, item)), len(merged))
            merged.insert(spot, item)
        setattr(record, kind, merged)
    for reading in record.readings:
        if reading.id in fresh and reading.retracts is not None:
            reading.retracts = ids.get(reading.retracts)
    _tests(record, read, by_clip, machines, ids, fresh)
    if read.labour is not None and any(a.clip in by_clip for a in read.labour.at):
        record.labour = Labour.model_validate(read.labour.model_dump())
    said = [r for r in read.remarks if r.at.clip in by_clip]
    for remark in said:
        remark.equipment = machines.get(remark.equipment or "")
    record.remarks += said
    record.recommendations += [r.text for r in said if r.kind == "recommendation"]
    record.complaint = record.complaint or next((r.text for r in said if r.kind == "complaint"), None)
    for name in ("date", "site", "customer", "technician", "certificate"):
        if getattr(record.visit, name) is None:
            setattr(record.visit, name, getattr(read.visit, name))


def _after(other: Any, item: Any) -> bool:
    """Tell whether a known item was said after a new one."""
    here, there = other.at.segment, item.at.segment
    return here is not None and there is not None and here > there


def _told_by_answer(known: Any, item: Any) -> None:
    """Take over what only the answer can have told: the side of the repair, or a value taken back."""
    if isinstance(known, Reading):
        if item.role == "retracted" and known.role == "measured":
            known.role = "retracted"
        if known.stage is None:
            known.stage = item.stage


def _machine_of(
    record: Record, entry: Correction, equipment: str | None, machines: dict[str, str | None]
) -> str | None:
    """Return the machine of something in an answer: the one it names, the question's, or none.

    With several machines an answer that belongs to no question and names none of them is not put to the one
    that happened to be talked of last: which machine it is becomes a question.
    """
    known = machines.get(equipment or "")
    named = entry.fields.get("names_machine")
    if entry.equipment is not None:
        return known if named and known is not None else entry.equipment
    if len(record.equipment) > 1 and not named:
        return None
    if known is None and len(record.equipment) == 1:
        return record.equipment[0].id
    return known


def _machines(
    record: Record, read: Record, by_clip: dict[str, Correction], *, whole: bool
) -> dict[str, str | None]:
    """Return {id in the second reading: id in the record}; a machine that an answer names is added."""
    out: dict[str, str | None] = {}
    taken: set[str] = set()
    numbers: dict[str, int] = {}
    known = list(record.equipment)
    for n, machine in enumerate(read.equipment):
        fits = [
            e
            for e in known
            if e.id not in taken
            and (
                (machine.serial and e.serial == machine.serial)
                or (
                    e.at is not None
                    and machine.at is not None
                    and _key_of_machine(e) == _key_of_machine(machine)
                )
            )
        ]
        if not fits and whole and len(read.equipment) == len(known) and known[n].id not in taken:
            fits = [known[n]]
        if not fits:
            named = [e for e in known if e.id not in taken and _names(e) & _names(machine)]
            fits = named if len(named) == 1 else []
        entry = by_clip.get(machine.at.clip or "") if machine.at is not None else None
        if not fits and entry is not None and entry.equipment is not None:
            fits = [e for e in known if e.id == entry.equipment]
        if not fits and entry is not None and len(known) == 1 and not machine.type and not machine.name:
            fits = known
        if fits:
            taken.add(fits[0].id)
            out[machine.id] = fits[0].id
            _fill(fits[0], machine)
        elif entry is not None:
            numbers[entry.id] = numbers.get(entry.id, 0) + 1
            old, machine.id = machine.id, f"{entry.id}.e{numbers[entry.id]}"
            out[old] = machine.id
            record.equipment = [*record.equipment, machine]
    return out


def _names(machine: Equipment) -> set[str]:
    return {n.casefold() for n in (machine.name, machine.type) if n}


def _key_of_machine(machine: Equipment) -> tuple[Any, ...]:
    at = machine.at or At()
    return (at.clip, at.segment, at.first_word)


def _fill(known: Equipment, machine: Equipment) -> None:
    for name in ("name", "type", "model", "serial", "refrigerant"):
        if getattr(known, name) is None:
            setattr(known, name, getattr(machine, name))
    have = {(p.quantity, p.value, p.unit) for p in known.plate}
    known.plate = [*known.plate, *(p for p in machine.plate if (p.quantity, p.value, p.unit) not in have)]


def _tests(
    record: Record,
    read: Record,
    by_clip: dict[str, Correction],
    machines: dict[str, str | None],
    ids: dict[str, str],
    fresh: set[str],
) -> None:
    """Take over the tests that an answer brought or filled in."""
    for n, test in enumerate(read.tests, start=1):
        readings = [ids[r] for r in test.readings if r in ids]
        entry = by_clip.get(test.at.clip or "")
        if entry is None:
            mine = next((r for r in readings if r in fresh), None)
            if mine is None:
                continue
            entry = next(e for e in by_clip.values() if mine.startswith(f"{e.id}."))
        test.readings = readings
        test.equipment = _machine_of(record, entry, test.equipment, machines)
        same = [t for t in record.tests if t.kind == test.kind and set(t.readings) & set(readings)] or [
            t
            for t in record.tests
            if t.kind == test.kind and t.equipment == test.equipment and t.attempt == test.attempt
        ]
        if same:
            test.id, test.attempt = same[0].id, same[0].attempt
            record.tests = [test if t is same[0] else t for t in record.tests]
        else:
            test.id = f"{entry.id}.t{n}"
            record.tests = [*record.tests, test]
