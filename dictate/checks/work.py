"""Which kinds of work were done on which machine: what the rules of procedure hang on.

A gap ("the evacuation was not stated") is raised only where the work that was said to be done calls for
the step, so every such rule asks a `Job` first. A job is everything that was said of one machine. A visit
with one machine is one job, whatever is left unattributed; with several machines, what belongs to none of
them may satisfy a question about any of them, but never raises one about a machine it was not said of.

    "Swapped the run capacitor"             electrical repair; the refrigerant circuit stays closed
    "Cut in a new drier, brazed, evacuated" sealed-system repair: the circuit was opened and closed again
    "Added eight ounces"                    a top-up: an amount and a leak check are asked for, no vacuum
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from dictate.checks.facts import Facts
from dictate.checks.handled import HANDLED, Handled, kind_handled
from dictate.checks.told import Told
from dictate.checks.values import number_in
from dictate.checks.words import Phrase, Said, kind_of_part, place, said_after, stands_in
from dictate.record.visit import Event, Movement, Reading
from dictate.vocabulary.load import table

__all__ = ["HANDLED", "Handled", "Job", "inches", "jobs", "shows_running", "total"]


_RUNS = re.compile(
    r"\b(?:started|starts|running|runs|ran|restarted|cycled|cycles|harvest\w*|changed over|terminated|"
    r"came on|pulled in)\b"
)
_RUNS_NOT = re.compile(r"\b(?:not|no|never|fail\w*|won't|didn't)\b")


def shows_running(event: Event) -> bool:
    """True when an event tells that the machine or a part of it works; "did not start" does not."""
    text = event.event.lower().replace("_", " ")
    return bool(_RUNS.search(text)) and not _RUNS_NOT.search(text)


@dataclass
class Job(Told):
    """The kinds of work that were done on one machine, and how it was left."""

    # Parts

    @cached_property
    def handled(self) -> list[Handled]:
        """Return the parts that were replaced, installed, removed or repaired, as done.

        A part whose replacement is only planned, or was said not to be done, is not among them.
        """
        replaced = [s for s in self.steps("part_replaced", status=None) if s.component]
        put_off = {s.component for s in replaced if s.status != "done"}
        put_off -= {s.component for s in replaced if s.status == "done"}
        out = [
            Handled(p.name, p.action, kind_handled(p.name, p.heard, self.equipment), p)
            for p in self.record.parts
            if self._mine(p) and p.action in HANDLED and p.name not in put_off
        ]
        for step in replaced:
            # The step names the valve and the part its coil: the part is the closer word.
            told = any(step.component in h.name or h.name in step.component for h in out if step.component)
            if step.status == "done" and step.component and not told:
                out.append(
                    Handled(
                        step.component,
                        "replaced",
                        kind_handled(step.component, step.heard, self.equipment),
                        step,
                    )
                )
        driers = self.steps("filter_drier_replaced")
        if driers and not any(h.kind == "drier" for h in out):
            out.append(Handled("filter drier", "replaced", "drier", driers[0]))
        return out

    def handled_of(self, *kinds: str) -> list[Handled]:
        """Return the handled parts of some classes."""
        return [h for h in self.handled if h.kind in kinds]

    def handled_named(self, *names: str) -> list[Handled]:
        """Return the handled parts with one of these words in their name."""
        return [h for h in self.handled if any(n in h.name.lower() for n in names)]

    # Kinds of work

    @cached_property
    def openings(self) -> list[Said]:
        """Return what opened the refrigerant circuit; empty when it stayed closed."""
        brazed = self.steps("brazed")
        driers = [h.thing for h in self.handled_of("drier")]
        parts = [h.thing for h in self.handled_of("circuit")]
        if parts and not brazed and not driers and self.phrases("not_opened"):
            return []
        return [*driers, *parts, *brazed]

    @property
    def opened(self) -> bool:
        """True when the refrigerant circuit was opened."""
        return bool(self.openings)

    @property
    def closed_up(self) -> bool:
        """True when the circuit was opened and put together again, so that what follows is called for.

        A compressor that was cut out while its successor is on order leaves the job open.
        """
        if not self.opened:
            return False
        if self.steps("brazed", "evacuated", "charged", "vacuum_held", "filter_drier_replaced"):
            return True
        if self.movements("charged"):
            return True
        return any(h.action != "removed" for h in self.handled_of("drier", "circuit"))

    @property
    def recovered(self) -> list[Said]:
        """Return what says that refrigerant was recovered."""
        return [*self.steps("refrigerant_recovered"), *self.movements("recovered")]

    @property
    def charged(self) -> list[Said]:
        """Return what says that refrigerant was put in."""
        moved = [m for m in self.movements("charged") if m.value is None or m.value > 0]
        return [*self.steps("charged"), *moved]

    @cached_property
    def new_machine(self) -> list[Said]:
        """Return what says that a new machine was installed or started for the first time."""
        names = table("work")["parts"]["new_machine"]["words"]
        parts: list[Said] = [
            h.thing
            for h in self.handled
            if h.action == "installed" and re.sub("^new ", "", h.name.lower()) in names
        ]
        return parts or list(self.phrases("commissioned")[:1])

    @cached_property
    def charge_implied(self) -> list[Said]:
        """Return what shows that an evacuated circuit was charged, although no charge was said.

        The machine ran and showed pressures or amps afterwards, or its caps went back on.
        """
        pulled = self.steps("evacuated") or self.readings("vacuum")
        put_off = self.steps("charged", status="planned") or self.steps("charged", status="not_done")
        if self.charged or not pulled or put_off or self.refilled_otherwise or self.moved("charged"):
            return []
        kinds = ("current", "superheat", "subcooling", "pressure")
        shown = [r for r in self.left_readings if isinstance(r, Reading) and r.quantity in kinds]
        shown = [r for r in shown if r.stage == "as_left" or r.quantity != "pressure"]
        return [*self.steps("run_checked", "ports_capped"), *shown]

    @property
    def full_charge(self) -> bool:
        """True when the circuit was empty before charging, so that what went in is the whole charge."""
        return bool(self.charged) and bool(
            self.opened or self.steps("evacuated") or self.recharged_after_recovery
        )

    @property
    def recharged_after_recovery(self) -> bool:
        """True when refrigerant was taken out and put back in an amount that is no mere trim.

        Taking four ounces out of an overcharged machine and putting one back asks for no vacuum.
        """
        if not self.recovered or not self.charged:
            return False
        out = total(self.movements("recovered"), "oz")
        back = total(self.movements("charged"), "oz")
        plate = self.plate_charge("oz")
        if plate and back is not None:
            return back >= 0.5 * plate
        if out and back is not None:
            return back >= 0.5 * out
        return True

    @property
    def top_up(self) -> bool:
        """True when refrigerant was added to a circuit that stayed closed and charged."""
        return bool(self.charged) and not self.full_charge

    @property
    def any_refrigerant(self) -> str | None:
        """Return the one refrigerant that was moved in or out anywhere it may belong to this machine."""
        names = {m.refrigerant for d in ("recovered", "charged") for m in self.moved(d) if m.refrigerant}
        return names.pop() if len(names) == 1 else None

    @cached_property
    def new_circuit(self) -> bool:
        """True when a new circuit was put in that never held refrigerant: no recovery, no old drier."""
        replaced = [
            h for h in self.handled_of("circuit", "drier") if h.action in ("replaced", "removed", "repaired")
        ]
        return bool(self.new_machine) and not replaced

    @cached_property
    def found_empty(self) -> list[Said]:
        """Return what says that the circuit held nothing when it was found."""
        flat: list[Said] = [
            r
            for r in self.readings("pressure")
            if r.value == 0 and r.unit in ("psi", "bar", "kPa") and r.stage == "as_found"
        ]
        return [*self.phrases("found_empty"), *flat]

    # Power

    @cached_property
    def capacitor_work(self) -> list[Said]:
        """Return what says that a capacitor was handled: changed, discharged, or measured."""
        parts = [h.thing for h in self.handled_named("capacitor")]
        loose = [r for r in self.readings("capacitance") if not _under_load(r)]
        return [*parts, *self.steps("capacitor_discharged"), *loose]

    @cached_property
    def hands_in(self) -> list[Said]:
        """Return the work that calls for isolated power.

        Wired, moving and circuit parts that were handled, brazing, capacitors, and windings that were ohmed,
        for which leads come off; a heater or a thermistor that is only measured is no work.
        """
        parts = [h.thing for h in self.handled_of("electrical", "moving", "circuit", "drier")]
        windings = table("work")["resistance"]["windings"]
        ohmed = [
            r for r in self.readings("resistance") if r.component and stands_in(r.component.lower(), windings)
        ]
        found = {id(t): t for t in [*parts, *self.steps("brazed"), *self.capacitor_work, *ohmed]}
        return list(found.values())

    @property
    def plugged(self) -> bool:
        """True when the machine was isolated by its plug, or is told to have one."""
        isolated = self.steps("power_isolated")
        said = " ".join(s.heard.lower() for s in isolated)
        if re.search(r"plug|cord", said):
            return True
        if re.search(r"breaker|disconnect|fuse|lock|panel|isolator|main switch", said):
            return False
        return bool(self.phrases("plugged"))

    # How it was left

    @cached_property
    def repairs(self) -> list[Said]:
        """Return the work after which the machine is run: parts changed or repaired, charge, adjustments."""
        kinds = ("electrical", "low_voltage", "moving", "circuit", "drier")
        parts = [h.thing for h in self.handled_of(*kinds) if h.action != "removed"]
        adjusted = [
            s
            for s in self.steps("adjusted")
            if s.component and kind_of_part(s.component) not in ("neutral", "other")
        ]
        found = {id(t): t for t in [*parts, *self.steps("brazed"), *self.charged, *adjusted]}
        return list(found.values())

    @property
    def unfinished(self) -> bool:
        """True when the circuit was opened and not yet charged again, or the machine left off on purpose."""
        if self.opened and not self.closed_up:
            return True
        waits = not (self.charged or self.refilled_otherwise or self.charge_implied)
        if (self.opened or self.steps("evacuated")) and waits:
            return True
        return bool(self.phrases("left_off")) and not self.stated("power_restored", "run_checked")

    @property
    def refilled_otherwise(self) -> list[Phrase]:
        """Return what says that the charge stayed in the machine (pumped down, valves opened again)."""
        return [*self.phrases("pumped_down"), *self.phrases("charge_kept")]

    @cached_property
    def ran(self) -> list[Said]:
        """Return the events after the repair that show the machine running."""
        running = [e for e in self.events() if shows_running(e)]
        return [e for e in running if self._after_repair(e)]

    @cached_property
    def left_readings(self) -> list[Said]:
        """Return the measured values that describe the machine after the work."""
        inside = {i for t in self.record.tests for i in t.readings}
        kinds = (
            "current", "pressure", "superheat", "subcooling", "temperature", "temperature_difference",
            "voltage",
            "power", "duration", "flow", "speed",
        )  # fmt: skip
        out: list[Said] = []
        for r in self.seen(*kinds):
            if r.id in inside or r.reference == "vacuum_depth" or (r.quantity == "current" and r.value == 0):
                continue
            if r.stage == "as_left" or (r.stage is None and self._after_repair(r)):
                out.append(r)
        return out

    def _after_repair(self, thing: Said) -> bool:
        """True when a thing was said after every repair; True as well when the order cannot be told."""
        if not self.repairs:
            return True
        orders = [said_after(thing, r) for r in self.repairs]
        return all(o is None or o for o in orders)

    # Refrigerant

    @cached_property
    def refrigerant(self) -> str | None:
        """Return the machine's refrigerant: plate first, then what moved; None when it cannot be told."""
        if self.equipment is not None and self.equipment.refrigerant:
            return self.equipment.refrigerant
        moved = {m.refrigerant for d in ("recovered", "charged") for m in self.movements(d) if m.refrigerant}
        return moved.pop() if len(moved) == 1 else None

    def plate_charge(self, unit: str) -> float | None:
        """Return the plate charge in the unit asked for; None when it was not said or is not one value.

        The least mass is a compressor's oil or a part's weight only in speech about parts, so plate values
        of a named component are left out.
        """
        plates = [p for p in self.facts.plate(self.equipment_id, "mass") if not _of_part(p.component)]
        values = {round(number_in(p.value, p.unit, "oz"), 2) for p in plates}
        if len(values) != 1:
            return None
        return number_in(plates[0].value, plates[0].unit, unit)


def _of_part(component: str | None) -> bool:
    """True when a mass belongs to something else than the refrigerant circuit as a whole."""
    text = (component or "").lower()
    return any(w in text for w in ("cylinder", "tank", "oil", "ice", "bottle", "scale"))


def _under_load(reading: Reading) -> bool:
    """True when a capacitance was worked out from amps and volts on the running machine."""
    text = reading.heard.lower()
    return any(w in text for w in ("under load", "running", "calculated", "works out", "amps"))


def jobs(facts: Facts) -> list[Job]:
    """Return one job for each machine that anything was said of; one for a visit without a named machine."""
    record = facts.record
    ids = list(facts.machines())
    named = {i for i in ids if i is not None} | {e.id for e in record.equipment}
    if len(named) <= 1:
        return [Job(facts, next(iter(named), None), True)]
    return [Job(facts, i, False) for i in ids]


def total(movements: Iterable[Movement], unit: str) -> float | None:
    """Return the sum of the amounts in the unit asked for; None when there is none, or one has no number."""
    amounts = list(movements)
    if not amounts or any(m.value is None or m.unit is None for m in amounts):
        return None
    return sum(
        number_in(m.value, m.unit, unit) for m in amounts if m.value is not None and m.unit is not None
    )


def inches(job: Job) -> list[Reading]:
    """Return inches of vacuum on a compound gauge that belong to an evacuation and not to a recovery.

    A depth belongs to the step, evacuated or recovered, that was said nearest before it, and to an evacuation
    once the circuit was opened.
    """
    depths = [
        r
        for r in job.seen("pressure")
        if r.reference == "vacuum_depth" and r.unit == "inHg" and r.value is not None
    ]
    steps = job.stated("evacuated", "refrigerant_recovered")
    out = []
    for reading in depths:
        before = [s for s in steps if not said_after(s, reading)]
        nearest = max(before, key=lambda s: place(s) or (0, 0.0, 0), default=None)
        if nearest is None:
            nearest = steps[0] if steps else None
        # Once the circuit was opened there is nothing left to recover: a depth after that is an evacuation.
        after = bool(job.openings) and all(said_after(reading, o) for o in job.openings)
        if after or (nearest is not None and nearest.step == "evacuated"):
            out.append(reading)
    return out
