"""Compare what a reader found with the labels of a narration.

A found value belongs to a label when their words overlap; among several, the one that agrees best. Values are
equal when they are equal after conversion to the label's unit (16 oz = 1 lb); a level and a difference of
temperature are never equal. The counts are kept as pairs (right, of).
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from dictate.units import convert
from tests.benchmarks.text.found import Answer, Found, Movement, name
from tests.narrations.labels import Labelled, Row

OPEN_OUTCOMES = ("missing", "problem", "unsure")


def same_value(value: float | None, unit: str | None, wanted: float, wanted_unit: str) -> bool:
    """Compare two values with their units: within a thousandth, or a hundredth of a unit."""
    if value is None or unit is None:
        return False
    if unit != wanted_unit:
        if unit.startswith("delta_") != wanted_unit.startswith("delta_"):
            return False
        try:
            value = convert(value, unit, wanted_unit)
        except Exception:  # no common dimension, or no unit of ours
            return False
        return abs(value - wanted) <= max(1e-3 * abs(wanted), 0.01)
    return abs(value - wanted) <= max(1e-6 * abs(wanted), 1e-9)


@dataclass
class Score:
    """Counts over one or more narrations: `pairs` are (right, of), `counts` are plain, `lines` explain."""

    pairs: dict[str, list[int]] = field(default_factory=lambda: defaultdict(lambda: [0, 0]))
    counts: Counter[str] = field(default_factory=Counter)
    lines: list[str] = field(default_factory=list)
    words: int = 0
    seconds: float = 0.0

    def pair(self, key: str, right: bool) -> bool:
        """Count one case of `key`."""
        self.pairs[key][0] += right
        self.pairs[key][1] += 1
        return right

    def add(self, other: Score) -> None:
        """Add another score to this one."""
        for key, (right, of) in other.pairs.items():
            self.pairs[key][0] += right
            self.pairs[key][1] += of
        self.counts += other.counts
        self.lines += other.lines
        self.words += other.words
        self.seconds += other.seconds


def right_value(found: Found, row: Row) -> bool:
    """Say whether value, unit and state agree with the label."""
    if row.get("state") == "open":
        return found.state == "open"
    return found.state == "value" and same_value(found.value, found.unit, row.get("value"), row.get("unit"))


def _number_right(found: Found, row: Row) -> bool:
    """Say whether the bare number is the label's, whatever its unit."""
    wanted = row.get("value")
    return wanted is not None and found.value is not None and abs(found.value - wanted) <= 1e-6 * abs(wanted)


def _in(options: list[Any] | None, value: Any) -> bool:
    return options is None or value in options


def component_right(found: Found, row: Row) -> bool:
    """Say whether the component is one of the accepted ones (names mapped to the preferred form)."""
    options = row.options("component")
    return options is None or name(found.component) in [name(o) for o in options]


def point_right(found: Found, row: Row) -> bool:
    """Say whether the point is one of the accepted ones."""
    options = row.options("point")
    return options is None or (found.point or None) in options


def overlap(a: tuple[int, int], b: tuple[int, int]) -> int:
    """Count the words that two inclusive spans share."""
    return max(0, min(a[1], b[1]) - max(a[0], b[0]) + 1)


def assign(found: list[Found], rows: list[Row]) -> dict[int, int]:
    """Pair labels with found values: label index -> found index, the best agreement first."""
    scored = []
    for i, row in enumerate(rows):
        for j, f in enumerate(found):
            shared = overlap((f.first, f.last), (row.first, row.last))
            if not shared:
                continue
            merit = 100.0 * right_value(f, row)
            merit += 20.0 * (f.role in (row.options("role") or []))
            merit += 6.0 * (f.quantity == row.get("quantity"))
            merit += 3.0 * (component_right(f, row) and row.get("component") is not None)
            merit += 4.0 * (point_right(f, row) and row.get("point") is not None)
            merit += 2.0 * _in(row.options("relation"), f.relation)
            merit -= 1.5 * bool(row.get("optional"))
            merit += shared / (1 + (f.last - f.first) + (row.last - row.first)) - 0.001 * abs(
                f.first - row.first
            )
            scored.append((-merit, i, j))
    pairs: dict[int, int] = {}
    used: set[int] = set()
    for _, i, j in sorted(scored):
        if i not in pairs and j not in used:
            pairs[i] = j
            used.add(j)
    return pairs


def machines(answer: Answer, labelled: Labelled, pairs: dict[int, int]) -> dict[str, str]:
    """Map record ids to label keys: by type, model or serial, else by the readings they share."""
    votes: Counter[tuple[str, str]] = Counter()
    keys = [e["key"] for e in labelled.equipment]
    for i, j in pairs.items():
        key = labelled.readings[i].get("equipment") or (keys[0] if len(keys) == 1 else None)
        if key and answer.readings[j].equipment:
            votes[answer.readings[j].equipment, key] += 1
    for e in answer.equipment:
        for want in labelled.equipment:
            for attribute, weight in (("serial", 50), ("model", 50), ("type", 5)):
                if bare(e.get(attribute)) in accepted(want, attribute):
                    votes[e["id"], want["key"]] += weight
    out: dict[str, str] = {}
    for (record_id, key), _ in votes.most_common():
        if record_id not in out and key not in out.values():
            out[record_id] = key
    return out


def bare(text: Any) -> str:
    """Return letters and digits only, in capitals: how models and serials are compared."""
    return "".join(c for c in str(text or "").upper() if c.isalnum())


def accepted(machine: dict[str, Any], attribute: str) -> list[str]:
    """Return the accepted forms of a machine's attribute, bared; empty when the label does not say."""
    value = machine.get(attribute) or []
    return [bare(v) for v in (value if isinstance(value, list) else [value])]


def _say(row: Row) -> str:
    value = "open" if row.get("state") == "open" else f"{row.get('value')} {row.get('unit')}"
    return f"{row.get('heard')!r} = {value}"


def _show(f: Found | Movement) -> str:
    extra = (
        f" {f.quantity} {f.component}/{f.point} {f.role} {f.relation}"
        if isinstance(f, Found)
        else f" {f.direction}"
    )
    return f"{f.value} {f.unit}{extra} ({f.heard!r}){' review: ' + '; '.join(f.review) if f.review else ''}"


def score(labelled: Labelled, answer: Answer, *, peer: bool = False) -> Score:
    """Score one narration. A peer knows no roles, machines or steps: only its values are scored."""
    s = Score(words=len(labelled.words), seconds=answer.seconds)
    say = s.lines.append
    rows = labelled.readings
    pairs = assign(answer.readings, rows)
    of_machine = machines(answer, labelled, pairs)
    keys = [e["key"] for e in labelled.equipment]

    for i, row in enumerate(rows):
        f = answer.readings[pairs[i]] if i in pairs else None
        roles = row.options("role") or []
        measured = "measured" in roles
        optional, doubt = bool(row.get("optional")), bool(row.get("doubt"))
        if f is None:
            if measured and not optional and not doubt:
                s.pair("found", False)
                say(f"MISSED   {_say(row)}")
            elif not optional and not doubt:
                s.pair("other roles found", False)
            elif doubt:
                s.pair("doubtful right or flagged", True)
            continue
        right = right_value(f, row)
        if peer:
            # The same rule as for us: a doubtful or optional label is not counted.
            if measured and not optional and not doubt:
                what = (row.get("quantity"), _coarse(row.get("quantity")))
                s.pair("found", True)
                s.pair("right number", right or _number_right(f, row))
                s.pair("right value and unit", right)
                s.pair("right what", right and f.quantity in what)
            elif not measured:
                s.counts["taken, not a reading"] += 1
            continue
        if doubt:
            fine = bool(f.review) or (right and f.role in roles)
            s.pair("doubtful right or flagged", fine)
            if not fine:
                s.counts["wrong without a reason"] += 1
                say(f"DOUBTFUL, UNFLAGGED {_say(row)}: {_show(f)}")
            continue
        if not measured:
            s.pair("other roles found", True)
            s.pair("role", f.role in roles)
            if f.role == "measured":
                s.counts["role traps taken"] += 1
                s.counts["taken, not a reading"] += 1
                if not f.review:
                    s.counts["wrong without a reason"] += 1
                say(f"TRAP     {_say(row)} is {'/'.join(roles)}: {_show(f)}")
            elif not right:
                s.counts["wrong value in another role"] += 1
                say(f"wrong, other role {_say(row)}: {_show(f)}")
            elif f.role not in roles:
                say(f"role     {_say(row)} is {'/'.join(roles)}: {_show(f)}")
            continue
        if f.role != "measured":
            # A measured value that went in under another role is not there as a reading.
            if f.role not in roles:
                if not optional:
                    s.pair("found", False)
                    s.pair("role", False)
                say(f"ROLE     {_say(row)} is measured: {_show(f)}")
            continue
        if not optional:
            s.pair("found", True)
            s.pair("right number", right or _number_right(f, row))
            s.pair("right value and unit", right)
            s.pair("right what", right and f.quantity == row.get("quantity"))
            s.pair("role", True)
        if not right:
            flagged = bool(f.review)
            s.counts["wrong values"] += 1
            s.counts["wrong without a reason"] += not flagged
            say(f"WRONG{' (flagged)' if flagged else '   '} {_say(row)}: {_show(f)}")
            continue
        if not s.pair("right values without a reason", not f.review):
            say(f"asked    {_say(row)}: {'; '.join(f.review)}")
        verdicts = {
            "quantity": f.quantity == row.get("quantity"),
            "relation": _in(row.options("relation"), f.relation),
            "component": component_right(f, row),
            "point": point_right(f, row),
            "stage": f.stage == row.get("stage"),
            "reference": f.reference == row.get("reference"),
            "derived": f.derived == row.get("derived"),
            "unit_assumed": f.unit_assumed == row.get("unit_assumed"),
        }
        for key, good in verdicts.items():
            if key in row.keys and not s.pair(key.replace("_", " "), good):
                say(f"{key:8} {_say(row)}: {getattr(f, key)!r} for {row.get(key)!r}")
        if "component" in row.keys or "point" in row.keys:
            s.pair("component and point", component_right(f, row) and point_right(f, row))
        key = row.get("equipment") or (keys[0] if len(keys) == 1 else None)
        if key and not s.pair("equipment", of_machine.get(f.equipment or "") == key):
            say(f"machine  {_say(row)}: {f.equipment!r} for {key!r}")

    _extras(s, labelled, answer, set(pairs.values()), peer)
    if not peer:
        _movements(s, labelled, answer, of_machine)
        _steps(s, labelled, answer)
        _parts(s, labelled, answer)
        _machines(s, labelled, answer, of_machine)
        _labour(s, labelled, answer)
        _checks(s, labelled, answer, of_machine)
    return s


def _coarse(quantity: str) -> str:
    """Return what a general library can call the quantity at best: it knows dimensions only."""
    return {
        "vacuum": "pressure", "superheat": "temperature", "subcooling": "temperature",
        "temperature_difference": "temperature",
    }.get(quantity, quantity)  # fmt: skip


def _extras(s: Score, labelled: Labelled, answer: Answer, used: set[int], peer: bool) -> None:
    """Count what was taken and is labelled nowhere."""
    for j, f in enumerate(answer.readings):
        if j in used or f.role != "measured":
            continue
        here = (f.first, f.last)
        if any(overlap(here, (m.first, m.last)) for m in labelled.movements):
            continue  # an amount of refrigerant, held elsewhere in the record
        trap = any(overlap(here, (n.first, n.last)) for n in labelled.not_readings)
        double = any(
            overlap(here, (r.first, r.last)) and right_value(f, r) for r in labelled.readings if f.first >= 0
        )
        s.counts["taken, not a reading"] += not double
        if peer:
            continue
        s.counts["invented on a trap"] += trap
        s.counts["invented"] += not trap and not double
        s.counts["doubled"] += double
        if not f.review and not double:
            s.counts["wrong without a reason"] += 1
        s.lines.append(f"{'DOUBLED ' if double else 'INVENTED'} {_show(f)}")


def _movements(s: Score, labelled: Labelled, answer: Answer, of_machine: dict[str, str]) -> None:
    used: set[int] = set()
    for row in labelled.movements:

        def equal(m: Movement, row: Row = row) -> bool:
            return same_value(m.value, m.unit, row.get("value"), row.get("unit"))

        # An amount corrected in a later sentence may stand where it was said first: then the value decides.
        here = (row.first, row.last)
        near = [
            j
            for j, m in enumerate(answer.movements)
            if j not in used
            and (overlap((m.first, m.last), here) or (equal(m) and m.direction == row.get("direction")))
        ]
        near.sort(key=lambda j: not equal(answer.movements[j]))
        m = answer.movements[near[0]] if near else None
        optional = bool(row.get("optional"))
        if m is None:
            if not optional and not row.get("doubt"):
                s.pair("movements right", False)
                s.lines.append(f"MOVEMENT missed {row.get('heard')!r}")
            continue
        used.add(near[0])
        good = m.direction == row.get("direction") and same_value(
            m.value, m.unit, row.get("value"), row.get("unit")
        )
        good = good and (row.get("refrigerant") is None or m.refrigerant == row.get("refrigerant"))
        if row.get("equipment"):
            s.pair("movement machine", of_machine.get(m.equipment or "") == row.get("equipment"))
        if row.get("doubt"):
            s.pair("doubtful right or flagged", good or bool(m.review))
            if not (good or m.review):
                s.counts["wrong without a reason"] += 1
                s.lines.append(
                    f"MOVEMENT doubtful, unflagged {row.get('heard')!r}: {_show(m)} {m.refrigerant}"
                )
            continue
        s.pair("movements right", good)
        if good:
            s.pair("right movements without a reason", not m.review)
        else:
            s.counts["wrong without a reason"] += not m.review
            s.lines.append(f"MOVEMENT wrong {row.get('heard')!r}: {_show(m)} {m.refrigerant}")
    for j, m in enumerate(answer.movements):
        if j not in used and m.value is not None:
            s.counts["movements invented"] += 1
            s.counts["wrong without a reason"] += not m.review
            s.lines.append(f"MOVEMENT invented {_show(m)} {m.refrigerant}")


def _steps(s: Score, labelled: Labelled, answer: Answer) -> None:
    for row in labelled.steps:
        if row.get("optional"):
            continue
        wanted = [name(o) for o in row.options("component") or []]
        by_part = row.get("step") == "part_replaced" and wanted
        good = any(
            step == row.get("step")
            and status == row.get("status")
            and (not by_part or name(component) in wanted)
            for step, status, component, _, _ in answer.steps
        )
        if not s.pair("steps found", good):
            s.lines.append(
                f"STEP     missed {row.get('step')} {row.get('status')} {row.get('component', '')}"
            )
    codes = {(r.get("step"), r.get("status")) for r in labelled.steps}
    seen = set()
    for step, status, component, _, heard in answer.steps:
        if (step, status) in codes or (step, status) in seen:
            continue
        seen.add((step, status))
        if status == "done":
            s.counts["steps wrongly done"] += 1
            s.lines.append(f"STEP     WRONGLY DONE {step} {component or ''} ({heard!r})")
        else:
            s.counts["steps wrongly planned or not done"] += 1
            s.lines.append(f"step     wrongly {status} {step} {component or ''} ({heard!r})")


def _parts(s: Score, labelled: Labelled, answer: Answer) -> None:
    used: set[int] = set()
    for row in labelled.parts:
        names = [name(o) for o in row.options("name") or []]
        hits = [j for j, p in enumerate(answer.parts) if j not in used and name(p[0]) in names]
        hits.sort(key=lambda j: answer.parts[j][1] not in (row.options("action") or []))
        if hits:
            used.add(hits[0])
        if row.get("optional"):
            continue
        good = bool(hits) and answer.parts[hits[0]][1] in (row.options("action") or [])
        if not s.pair("parts", good):
            got = answer.parts[hits[0]] if hits else [p[:2] for p in answer.parts]
            s.lines.append(f"PART     {row.get('name')} {row.get('action')}: {got}")
        if row.get("part_number") and not s.pair(
            "part numbers", bool(hits) and bare(answer.parts[hits[0]][2]) == bare(row.get("part_number"))
        ):
            got = answer.parts[hits[0]][2] if hits else None
            s.lines.append(f"PART     number {row.get('part_number')}: {got!r}")
    for j, p in enumerate(answer.parts):
        if j not in used:
            s.counts["parts not labelled"] += 1
            s.lines.append(f"PART     not labelled {p}")


def _machines(s: Score, labelled: Labelled, answer: Answer, of_machine: dict[str, str]) -> None:
    by_key = {key: e for e in answer.equipment for i, key in of_machine.items() if e["id"] == i}
    for want in labelled.equipment:
        got = by_key.get(want["key"], {})
        for attribute in ("type", "model", "serial", "refrigerant"):
            if attribute not in want:
                continue
            good = bare(got.get(attribute)) in accepted(want, attribute)
            if not s.pair(f"machine {attribute}", good):
                s.lines.append(f"MACHINE  {attribute} {want[attribute]}: {got.get(attribute)!r}")
    extra = len(answer.equipment) - len(labelled.equipment)
    if extra > 0:
        s.counts["machines too many"] += extra
        s.lines.append(f"MACHINE  {extra} too many: {[(e['type'], e['model']) for e in answer.equipment]}")


def _labour(s: Score, labelled: Labelled, answer: Answer) -> None:
    for key, value in labelled.labour.items():
        got = answer.labour.get(key)
        good = abs(got - value) < 0.02 if isinstance(got, float | int) and key == "hours" else got == value
        if not s.pair("labour", good):
            s.lines.append(f"LABOUR   {key} {value}: {got!r}")


def _checks(s: Score, labelled: Labelled, answer: Answer, of_machine: dict[str, str]) -> None:
    if not answer.checks:
        return

    def raised(rule: str) -> list[str]:
        rule_id, _, key = rule.partition("@")
        return [
            message
            for r, outcome, equipment, message in answer.checks
            if r == rule_id
            and outcome in OPEN_OUTCOMES
            and (not key or of_machine.get(equipment or "") == key)
        ]

    for rule in labelled.raised:
        if not s.pair("checks raised", bool(raised(rule))):
            s.lines.append(f"CHECK    not raised {rule}")
    for rule in labelled.quiet:
        messages = raised(rule)
        if not s.pair("checks kept quiet", not messages):
            s.lines.append(f"CHECK    false alarm {rule}: {messages[0]}")


def total(scores: Iterable[Score]) -> Score:
    """Add scores up."""
    out = Score()
    for one in scores:
        out.add(one)
    return out
