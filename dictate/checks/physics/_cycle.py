"""The refrigerant circuit as it was measured: which pressure goes with which temperature.

Everything here works on one machine and on one side of the repair at a time. A temperature goes with the
pressure of the same side that was said closest to it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dictate.checks.facts import Facts, absolute_psi, exact, phrases, value_in
from dictate.checks.refrigerants import bubble_f, dew_f, glides
from dictate.record.visit import Reading

SUCTION = ("suction", "vapor", "vapour", "evaporator outlet")
DISCHARGE = ("discharge",)
LIQUID = ("liquid", "receiver")
AMBIENT = ("ambient", "outdoor", "entering", "condenser air in")
BOX = ("box", "return")
NOT_RUNNING = phrases("not_running")
NEAR = 6
"""Readings between a temperature and its pressure, at most."""


@dataclass
class Moment:
    """The readings of one machine on one side of the repair."""

    facts: Facts
    equipment: str | None
    refrigerant: str | None
    stage: str | None
    readings: list[Reading]

    def pressures(self, *points: str) -> list[Reading]:
        """Return the pressures at these points while the machine ran, as far as the words tell."""
        return [
            r
            for r in self.readings
            if r.quantity == "pressure" and r.point in points and exact(r) and not self._standing(r)
        ]

    def _standing(self, reading: Reading) -> bool:
        before, after = self.facts.around(reading)
        if reading.at.first_word is None:
            return False
        return any(f" {w} " in f" {before} {after} " for w in NOT_RUNNING)

    def temperatures(self, *points: str) -> list[Reading]:
        """Return the temperatures at these points."""
        return [r for r in self.readings if r.quantity == "temperature" and r.point in points and exact(r)]

    def last(self, readings: list[Reading]) -> Reading | None:
        """Return the last one said, which describes the machine best."""
        return readings[-1] if readings else None

    def with_nearest(self, ones: list[Reading], others: list[Reading]) -> Iterator[tuple[Reading, Reading]]:
        """Yield each reading with the one of the others that was said closest to it."""
        for one in ones:
            other = self.facts.nearest(one, others)
            if other is not None:
                yield one, other

    def _one_to_one(
        self, lines: list[Reading], pressures: list[Reading]
    ) -> Iterator[tuple[Reading, Reading]]:
        """Yield line temperatures with the pressure said near them, where it is the only one for it."""
        pairs = [
            (line, pressure)
            for line, pressure in self.with_nearest(lines, pressures)
            if abs(self.facts.place(line) - self.facts.place(pressure)) <= NEAR
        ]
        for line, pressure in pairs:
            if sum(p is pressure for _, p in pairs) == 1:
                yield line, pressure

    def dew(self, pressure: Reading) -> float | None:
        """Return the dew temperature in °F at a pressure."""
        return dew_f(self.refrigerant, absolute_psi(pressure))

    def bubble(self, pressure: Reading) -> float | None:
        """Return the bubble temperature in °F at a pressure."""
        return bubble_f(self.refrigerant, absolute_psi(pressure))

    def glides(self, pressure: Reading) -> bool:
        """True when dew and bubble lie visibly apart at a pressure."""
        return glides(self.refrigerant, absolute_psi(pressure))

    def superheats(self) -> Iterator[tuple[Reading, Reading, float, float]]:
        """Yield (line temperature, pressure, dew temperature, superheat), in °F.

        Only where one line temperature goes with the pressure: of several lines (a reversing valve, a heat
        exchanger) it cannot be told which one the superheat is of.
        """
        for line, pressure in self._one_to_one(self.temperatures(*SUCTION), self.pressures(*SUCTION)):
            dew = self.dew(pressure)
            if dew is not None:
                yield line, pressure, dew, value_in(line, "degF") - dew

    def subcoolings(self) -> Iterator[tuple[Reading, Reading, float, float]]:
        """Yield (line temperature, pressure, bubble temperature, subcooling), in °F.

        The pressure is the liquid line's where it was read, else the discharge pressure, which reads a
        little high for it.
        """
        pressures = self.pressures(*LIQUID) or self.pressures(*DISCHARGE)
        if self.refrigerant == "R-744":
            return
        for line, pressure in self._one_to_one(self.temperatures("liquid"), pressures):
            bubble = self.bubble(pressure)
            if bubble is not None:
                yield line, pressure, bubble, bubble - value_in(line, "degF")

    def evaporating(self) -> tuple[float, Reading] | None:
        """Return the saturated suction temperature in °F with its reading: as said, or from the pressure."""
        said = self.last(self.temperatures("saturated suction"))
        if said is not None:
            return value_in(said, "degF"), said
        pressure = self.last(self.pressures("suction", "vapor", "vapour"))
        dew = self.dew(pressure) if pressure is not None else None
        return (dew, pressure) if dew is not None and pressure is not None else None

    def condensing(self) -> tuple[float, Reading] | None:
        """Return the condensing temperature in °F (dew) with its reading: as said, or from the pressure."""
        said = self.last(self.temperatures("saturated condensing"))
        if said is not None:
            return value_in(said, "degF"), said
        pressure = self.last(self.pressures("discharge"))
        if pressure is None or self.refrigerant == "R-744":
            return None
        dew = self.dew(pressure)
        return (dew, pressure) if dew is not None else None


def moments(facts: Facts) -> list[Moment]:
    """Return the measured readings by machine and side of the repair, in order."""
    found = []
    for equipment, group in facts.by_machine(facts.readings()).items():
        for readings in facts.same_moment(group):
            found.append(
                Moment(facts, equipment, facts.refrigerant_of(equipment), readings[0].stage, readings)
            )
    return found


def limits(
    facts: Facts, quantity: str, equipment: str | None, spread: float
) -> tuple[float, float, list[Reading]] | None:
    """Return (least, greatest, what was said) of a target in °F difference; a single figure gets a spread."""
    said = [
        r
        for role in ("target", "rated")
        for r in facts.readings(quantity, role=role)
        if r.equipment in (equipment, None) and r.value is not None
    ]
    if not said:
        return None
    low: float | None = None
    high: float | None = None
    for r in said:
        value = value_in(r, "delta_degF")
        if r.relation in (">", ">="):
            low = value
        elif r.relation in ("<", "<="):
            high = value
    plain = [value_in(r, "delta_degF") for r in said if exact(r)]
    if plain and low is None and high is None:
        if len(set(plain)) > 1:
            return min(plain), max(plain), said
        return plain[0] - spread, plain[0] + spread, said
    return (low if low is not None else 0.0), (high if high is not None else 1000.0), said
