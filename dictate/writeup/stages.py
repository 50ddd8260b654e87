"""As found or as left: from the words where they say it, else from the order of the repair.

A reading before the first piece of repair is as found; one after the last piece is as left. What was
measured in between, and what belongs to a pressure test or an evacuation, stays open. A narration that is
told backwards shows itself by words ("where I left it" before the repair); there the order says nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from dictate.record.mentions import StageMention
from dictate.record.visit import Movement, Reading, Step
from dictate.writeup.order import Place, place

_REPAIR = frozenset(
    {"part_replaced", "filter_drier_replaced", "refrigerant_recovered", "brazed", "charged", "evacuated"}
)
_CIRCUIT = frozenset({"refrigerant_recovered", "brazed", "evacuated", "charged", "filter_drier_replaced"})
_OF_CIRCUIT = frozenset({"pressure", "superheat", "subcooling"})
_LINES = frozenset({"suction", "liquid", "discharge"})  # pipes of the circuit
_OF_PART = frozenset({"resistance", "capacitance"})  # of a new part, also said before it went in
_VALVES = frozenset({"expansion valve", "electronic expansion valve", "metering device"})
_MINOR = frozenset(
    {"air filter", "filter", "belt", "fan belt", "door gasket", "gasket", "valve cap", "service cap"}
)
_LIGHT = frozenset({"cleaned", "adjusted"})
_RUNNING = frozenset({"current", "speed"})  # of what only a running machine has
_NO_STAGE = frozenset({"vacuum"})
_LATE_ONLY = frozenset({"mass", "duration"})  # what a machine made, and how long it took, once it ran again


_DOING = frozenset({"power_restored", "ports_capped", "pressure_tested", "vacuum_held", "nitrogen_purged"})


def set_stages(
    readings: Sequence[Reading],
    steps: Sequence[Step],
    tested: set[str],
    movements: Sequence[Movement] = (),
) -> None:
    """Fill the stage of measured readings that have none; `tested` are the ids that belong to a test.

    Refrigerant that was moved is work on the circuit, also where no step was told beside it.
    """
    machines = {r.equipment for r in readings}
    for machine in machines:
        own = [r for r in readings if r.equipment == machine]
        work = [s for s in steps if s.equipment == machine and s.status == "done"]
        work = _charged_where_weighed(machine, movements, work)
        work += _moved(machine, movements, work)
        window = _window(work)
        if window is None:
            if any(s.step in _DOING for s in work):
                _by_power(own, work, tested)
            else:
                # A visit at which nothing was changed: found, up to where it is told how it was left.
                until = min((place(r.at) for r in own if r.stage == "as_left"), default=(10**9, 0))
                _all_found([r for r in own if place(r.at) < until], tested)
            continue
        first, last = window
        before, after = "as_found", "as_left"
        begun = min(place(s.at) for s in work if s.step in _REPAIR | _LIGHT)
        early = {r.stage for r in own if place(r.at) < begun and r.quantity not in _OF_PART and r.stage}
        heavy = any(s.step in _REPAIR and s.component not in _MINOR for s in work)
        if "as_left" in early and (not heavy or "as_found" not in early):
            late = [r for r in own if place(r.at) > last]
            if any(r.stage == "as_found" and not _set_against(r, late) for r in late):
                before, after = after, before  # told backwards, and the words say so at both ends
            elif not any(r.stage == "as_found" for r in late) and not _result_first(own, begun):
                continue
        running = _running_again(work)
        ended = max(place(s.at) for s in work if s.step in _REPAIR | _LIGHT)
        circuit = sorted(place(s.at) for s in work if s.step in _CIRCUIT)
        opened = (circuit[0], circuit[-1]) if circuit else None
        turned = sorted(place(s.at) for s in work if s.step == "adjusted" and s.component in _VALVES)
        retracted = [r for r in own if r.role == "retracted" and r.heard]
        for reading in own:
            if (
                reading.stage is not None
                or reading.role != "measured"
                or reading.quantity in _NO_STAGE
                or (reading.id in tested and not _stood(reading, opened))
            ):
                continue
            here = place(reading.at)
            if reading.retracts:
                # What puts a value right belongs to where the wrong one was said.
                wrong = [
                    place(r.at)
                    for r in retracted
                    if r.heard == reading.retracts and place(r.at) < here and r.quantity == reading.quantity
                ]
                here = wrong[-1] if wrong else here
            if turned and here < turned[0] and reading.quantity == "superheat" and before == "as_found":
                if opened is None or opened[1] > turned[0] or here < opened[0]:
                    reading.stage = "as_found"
                continue
            of_circuit = reading.quantity in _OF_CIRCUIT or (
                reading.quantity == "temperature" and reading.point in _LINES
            )
            if opened is not None and of_circuit and before == "as_found":
                # What the refrigerant shows changes with work on the circuit, not with a belt.
                if here < opened[0] and _mended_before(work, here):
                    continue  # another part was renewed and the machine ran before the circuit was worked on
                if here < opened[0] or here > opened[1]:
                    reading.stage = "as_found" if here < opened[0] else "as_left"
                continue
            if reading.quantity in _LATE_ONLY and (
                reading.point in (None, "hold") or reading.quantity == "mass"
            ):
                if here > last and reading.point != "hold" and before == "as_found":
                    reading.stage = "as_left"
                elif here < first and reading.point != "hold" and reading.quantity == "duration":
                    reading.stage = before  # type: ignore[assignment]
                continue
            if before == "as_found" and _told_while_off(reading, work):
                reading.stage = "as_found"
                continue
            if before == "as_found" and _of_a_mended_fan(reading, work):
                reading.stage = "as_left"
                continue
            renewed = _renewed(reading, work) if before == "as_found" else None
            if renewed is not None:
                reading.stage = "as_left" if here > renewed else "as_found"
            elif (
                reading.quantity in _OF_PART
                and reading.component is None
                and before == "as_found"
                and ended < here < last
            ):
                reading.stage = "as_left"  # the new part, before the power came back on
            elif here > last or (before == "as_found" and running is not None and here > running):
                reading.stage = after  # type: ignore[assignment]
            elif here < first:
                reading.stage = before  # type: ignore[assignment]


def _set_against(reading: Reading, others: Sequence[Reading]) -> bool:
    """Tell whether a found value is only set against how it was left: "11 when I came, one when I went"."""
    k = next(i for i, r in enumerate(others) if r is reading)
    near = others[max(0, k - 2) : k + 3]
    return any(r.stage == "as_left" and (r.quantity, r.point, r.component) == _what(reading) for r in near)


def _what(reading: Reading) -> tuple[str, str | None, str | None]:
    return reading.quantity, reading.point, reading.component


def stages_by_words(readings: Sequence[Reading], told: Sequence[StageMention], tested: set[str]) -> None:
    """Fill the stages that are open by the words around the values, and put right what they say for certain.

    The order of the repair is asked first: a stage that was guessed early would turn that of all the others.
    """
    by_words = {(t.at.segment, t.at.first_word, t.at.last_word): t for t in told}
    for reading in readings:
        heard = by_words.get((reading.at.segment, reading.at.first_word, reading.at.last_word))
        if heard is None or reading.role != "measured" or reading.id in tested:
            continue
        if reading.stage is None or (heard.certain and not _again_later(reading, readings)):
            reading.stage = heard.stage


def _again_later(reading: Reading, readings: Sequence[Reading]) -> bool:
    """Tell whether the same thing was read again later and left so: then the first was not."""
    what = (reading.equipment, reading.quantity, reading.component, reading.point)
    return any(
        r.stage == "as_left"
        and r.role == "measured"
        and (r.equipment, r.quantity, r.component, r.point) == what
        and place(r.at) > place(reading.at)
        for r in readings
    )


def _charged_where_weighed(
    machine: str | None, movements: Sequence[Movement], work: Sequence[Step]
) -> list[Step]:
    """Put a charge where its amount was told, when the words for it stand in front of all other work."""
    told = [place(m.at) for m in movements if m.equipment == machine and m.direction == "charged"]
    begun = min((place(s.at) for s in work if s.step in _REPAIR - {"charged"}), default=None)
    if not told or begun is None or min(told) < begun:
        return list(work)
    return [s for s in work if s.step != "charged" or place(s.at) > begun] + [
        s.model_copy(update={"at": m.at})
        for s in work
        if s.step == "charged" and place(s.at) < begun
        for m in movements
        if m.equipment == machine and m.direction == "charged" and place(m.at) == min(told)
    ]


def _moved(machine: str | None, movements: Sequence[Movement], work: Sequence[Step]) -> list[Step]:
    """Return the moves of refrigerant of a machine as steps, where no such step was told."""
    told = {s.step for s in work}
    out = []
    for move in movements:
        step: Literal["charged", "refrigerant_recovered"]
        step = "charged" if move.direction == "charged" else "refrigerant_recovered"
        if move.equipment == machine and step not in told:
            out.append(Step(id="", at=move.at, heard=move.heard, step=step, status="done", equipment=machine))
    return out


def _result_first(readings: Sequence[Reading], begun: Place) -> bool:
    """Tell whether the result was told first, as a block of its own, and the story behind it in its order."""
    early = [r for r in readings if place(r.at) < begun and r.role == "measured"]
    left = [r for r in early if r.stage == "as_left"]
    if not left or early[: len(left)] != left:
        return False
    # One value may be a slip; it is a result where its paragraph is another one than the story's.
    return len(left) > 1 or all(place(r.at)[0] > place(left[0].at)[0] for r in early[1:])


def _told_while_off(reading: Reading, work: Sequence[Step]) -> bool:
    """Tell whether a running machine's value is told while its power is off: then it was read before that.

    As in "locked out, new contactor in. The belt was slipping, blower turning 610, supply 63. New belt".
    """
    running = reading.quantity in _RUNNING or (
        reading.quantity == "temperature" and reading.point in {"supply", "return", "condenser air out"}
    )
    if not running or not reading.value:
        return False
    here = place(reading.at)
    off = [place(s.at) for s in work if s.step == "power_isolated" and place(s.at) < here]
    on = [place(s.at) for s in work if s.step == "power_restored"]
    if not off or any(off[-1] < p < here for p in on) or not any(p > here for p in on):
        return False
    renewed = {s.component for s in work if s.step == "part_replaced" and place(s.at) < here}
    if reading.component is not None and reading.component in renewed:
        return False  # "a new motor went in. It runs at 1300"
    return any(s.step in _REPAIR | _LIGHT and place(s.at) > here for s in work)


def _of_a_mended_fan(reading: Reading, work: Sequence[Step]) -> bool:
    """Tell whether amps or turns are of a motor after its own mending, only the gas being still to do."""
    if reading.quantity not in _RUNNING or reading.component in (None, "compressor"):
        return False
    here = place(reading.at)
    parts = [place(s.at) for s in work if s.step == "part_replaced" and place(s.at) < here]
    on = [place(s.at) for s in work if s.step == "power_restored" and place(s.at) < here]
    later = [s for s in work if s.step in _REPAIR | _LIGHT and place(s.at) > here]
    return bool(parts and on) and min(parts) < max(on) and all(s.step in _CIRCUIT for s in later)


def _stood(reading: Reading, opened: tuple[Place, Place] | None) -> bool:
    """Tell whether a pressure is the one that a circuit stood at before it was opened, and no test's."""
    return reading.point == "static" and opened is not None and place(reading.at) < opened[0]


def _mended_before(work: Sequence[Step], here: Place) -> bool:
    """Tell whether a part was renewed and the power came back before a place."""
    parts = [place(s.at) for s in work if s.step == "part_replaced" and place(s.at) < here]
    on = [place(s.at) for s in work if s.step == "power_restored" and place(s.at) < here]
    return bool(parts and on) and min(parts) < max(on)


def _by_power(readings: Sequence[Reading], work: Sequence[Step], tested: set[str]) -> None:
    """Where nothing was repaired but the power was off: found before that, left once it was back on."""
    off = min((place(s.at) for s in work if s.step == "power_isolated"), default=None)
    on = max((place(s.at) for s in work if s.step == "power_restored"), default=None)
    # "Disconnect's on, so ..." in front of the isolation is how the machine was found, and no work.
    at_first = off is not None and on is not None and on > off
    doing = [
        place(s.at)
        for s in work
        if s.step in _DOING
        and not (at_first and s.step == "power_restored" and off is not None and place(s.at) < off)
    ]
    first = min(p for p in (off, *doing) if p is not None)
    until = min((place(r.at) for r in readings if r.stage == "as_left"), default=(10**9, 0))
    _all_found([r for r in readings if place(r.at) < min(first, until)], tested)
    for reading in readings:
        here = place(reading.at)
        if off is not None and on is not None and off < here < min(on, until) and reading.stage is None:
            # What a part measured while it was off, before another one of its kind was told of.
            told = {r.component for r in readings if off < place(r.at) < here}
            if (
                reading.role == "measured"
                and reading.quantity in _OF_PART
                and reading.id not in tested
                and reading.component not in told
            ):
                reading.stage = "as_found"
        if (
            on is not None
            and off is not None
            and off < on < place(reading.at)
            and reading.stage is None
            and reading.role == "measured"
            and reading.quantity not in _NO_STAGE | _LATE_ONLY
            and reading.id not in tested
        ):
            reading.stage = "as_left"


def _all_found(readings: Sequence[Reading], tested: set[str]) -> None:
    for reading in readings:
        if (
            reading.stage is None
            and reading.role == "measured"
            and reading.quantity not in _NO_STAGE
            and reading.quantity != "mass"
            and reading.id not in tested
            and not (reading.quantity == "duration" and reading.point in (None, "hold"))
        ):
            reading.stage = "as_found"


def _renewed(reading: Reading, work: Sequence[Step]) -> Place | None:
    """Return where the measured part itself was replaced; None when it was not, or more than once."""
    lost = reading.quantity == "voltage" and reading.component == "contactor" and (reading.value or 0) < 60
    if reading.component is None or not (
        lost or reading.quantity in ("resistance", "capacitance", "current")
    ):
        return None  # `lost`: volts over closed contacts are those of the old ones or of the new ones
    if lost and reading.point == "coil":
        return None
    own = [s for s in work if s.step == "part_replaced" and s.component == reading.component]
    return place(own[0].at) if len(own) == 1 else None


def _running_again(work: Sequence[Step]) -> Place | None:
    """Return where the power came back after it was isolated, when no heavy repair follows."""
    isolated = [place(s.at) for s in work if s.step == "power_isolated"]
    restored = [place(s.at) for s in work if s.step == "power_restored"]
    heavy = [place(s.at) for s in work if s.step in _REPAIR]
    again = [p for p in restored if any(i < p for i in isolated) and not any(h > p for h in heavy)]
    return min(again, default=None) if again else None


def _once_isolated(work: Sequence[Step], begin: Place, end: Place) -> Place:
    """Return where the repair begins that only small work comes before: at the isolation behind it.

    As in "new filters went in, and before I shut it down the blower drew 2.3": that was still as found.
    """
    off = [place(s.at) for s in work if s.step == "power_isolated" and begin < place(s.at) < end]
    if not off:
        return begin
    before = [s for s in work if s.step in _REPAIR | _LIGHT and place(s.at) < off[0]]
    small = all(s.component in _MINOR or s.step in _LIGHT for s in before)
    return off[0] if small and not any(s.step in _CIRCUIT for s in before) else begin


def _window(work: Sequence[Step]) -> tuple[Place, Place] | None:
    """Return where the repair begins and ends; None when nothing was repaired."""
    heavy = sorted(place(s.at) for s in work if s.step in _REPAIR and s.component not in _MINOR)
    light = sorted(place(s.at) for s in work if s.step in _LIGHT)
    if not heavy:
        heavy = sorted(place(s.at) for s in work if s.step in _REPAIR)
    if not heavy and not light:
        return None
    if heavy:
        begin = min(heavy[0], light[0]) if light else heavy[0]
        end = heavy[-1]
        begin = _once_isolated(work, begin, heavy[-1])
    else:
        begin, end = light[0], light[0]
    # A machine that is running again ends the repair, unless its circuit is worked on or it is isolated
    # again.
    restored = sorted(place(s.at) for s in work if s.step == "power_restored" and place(s.at) > begin)
    isolated = sorted(place(s.at) for s in work if s.step == "power_isolated")
    for again in restored:
        before = [p for p in heavy if p < again] or [p for p in light if p < again]
        circuit = [place(s.at) for s in work if s.step in _CIRCUIT and place(s.at) > again]
        if before and not circuit and not [p for p in isolated if p > again and any(h > p for h in heavy)]:
            return begin, again
    return begin, end
