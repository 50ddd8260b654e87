"""As found or as left: from the words where they say it, else from the order of the repair.

A reading before the first piece of repair is as found; one after the last piece is as left. What was
measured in between, and what belongs to a pressure test or an evacuation, stays open. A narration that is
told backwards shows itself by words ("where I left it" before the repair); there the order says nothing.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.record.visit import Reading, Step
from dictate.writeup.order import Place, place

_REPAIR = frozenset(
    {"part_replaced", "filter_drier_replaced", "refrigerant_recovered", "brazed", "charged", "evacuated"}
)
_CIRCUIT = frozenset({"refrigerant_recovered", "brazed", "evacuated", "charged", "filter_drier_replaced"})
_OF_CIRCUIT = frozenset({"pressure", "superheat", "subcooling"})
_MINOR = frozenset(
    {"air filter", "filter", "belt", "fan belt", "door gasket", "gasket", "valve cap", "service cap"}
)
_LIGHT = frozenset({"cleaned", "adjusted"})
_NO_STAGE = frozenset({"vacuum"})
_LATE_ONLY = frozenset({"mass", "duration"})  # what a machine made, and how long it took, once it ran again


_DOING = frozenset({"power_restored", "ports_capped", "pressure_tested", "vacuum_held", "nitrogen_purged"})


def set_stages(readings: Sequence[Reading], steps: Sequence[Step], tested: set[str]) -> None:
    """Fill the stage of measured readings that have none; `tested` are the ids that belong to a test."""
    machines = {r.equipment for r in readings}
    for machine in machines:
        own = [r for r in readings if r.equipment == machine]
        work = [s for s in steps if s.equipment == machine and s.status == "done"]
        window = _window(work)
        if window is None:
            if not any(s.step in _DOING for s in work):
                # A visit at which nothing was changed: found, up to where it is told how it was left.
                until = min((place(r.at) for r in own if r.stage == "as_left"), default=(10**9, 0))
                _all_found([r for r in own if place(r.at) < until], tested)
            continue
        first, last = window
        before, after = "as_found", "as_left"
        begun = min(place(s.at) for s in work if s.step in _REPAIR | _LIGHT)
        if any(r.stage == "as_left" and place(r.at) < begun for r in own):
            if not any(r.stage == "as_found" and place(r.at) > last for r in own):
                continue
            before, after = after, before  # told backwards, and the words say so at both ends
        running = _running_again(work)
        circuit = sorted(place(s.at) for s in work if s.step in _CIRCUIT)
        opened = (circuit[0], circuit[-1]) if circuit else None
        for reading in own:
            if (
                reading.stage is not None
                or reading.role != "measured"
                or reading.quantity in _NO_STAGE
                or reading.id in tested
            ):
                continue
            here = place(reading.at)
            if opened is not None and reading.quantity in _OF_CIRCUIT and before == "as_found":
                # What the refrigerant shows changes with work on the circuit, not with a belt.
                if here < opened[0] or here > opened[1]:
                    reading.stage = "as_found" if here < opened[0] else "as_left"
                continue
            if reading.quantity in _LATE_ONLY and (
                reading.point in (None, "hold") or reading.quantity == "mass"
            ):
                if here > last and reading.point != "hold" and before == "as_found":
                    reading.stage = "as_left"
                continue
            renewed = _renewed(reading, work) if before == "as_found" else None
            if renewed is not None:
                reading.stage = "as_left" if here > renewed else "as_found"
            elif here > last or (before == "as_found" and running is not None and here > running):
                reading.stage = after  # type: ignore[assignment]
            elif here < first:
                reading.stage = before  # type: ignore[assignment]


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
    if reading.component is None or reading.quantity not in ("resistance", "capacitance", "current"):
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
