"""The circuit at one moment in five numbers, for the patterns that a colleague would ask about."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from dictate.checks.facts import Facts, exact, value_in
from dictate.checks.physics._cycle import AMBIENT, BOX, Moment, moments
from dictate.checks.rule import Finding, ok, unsure
from dictate.record.visit import Reading


@dataclass
class Picture:
    """Superheat, subcooling, split, evaporating temperature and coil difference in °F; None where unknown."""

    moment: Moment
    superheat: float | None = None
    subcooling: float | None = None
    split: float | None = None
    evaporating: float | None = None
    difference: float | None = None
    on: list[Reading] = field(default_factory=list)

    def words(self) -> str:
        """Write the numbers that are known."""
        facts = self.moment.facts
        named = {
            "superheat": self.superheat,
            "subcooling": self.subcooling,
            "condenser split": self.split,
            "saturated suction": self.evaporating,
            "coil difference": self.difference,
        }
        return ", ".join(
            f"{name} {facts.degrees(v) if name == 'saturated suction' else facts.difference(v)}"
            for name, v in named.items()
            if v is not None
        )

    def numbers(self) -> dict[str, tuple[float, str]]:
        """Return the numbers that are known, for `computed`."""
        found = {"superheat": self.superheat, "subcooling": self.subcooling, "split": self.split}
        computed = {k: (v, "delta_degF") for k, v in found.items() if v is not None}
        if self.evaporating is not None:
            computed["saturated suction"] = (self.evaporating, "degF")
        return computed


def pictures(facts: Facts) -> Iterator[Picture]:
    """Yield the picture of each machine on each side of the repair."""
    for moment in moments(facts):
        picture = Picture(moment)
        for name in ("superheat", "subcooling"):
            said = [r for r in moment.readings if r.quantity == name and exact(r)]
            if said:
                setattr(picture, name, value_in(said[-1], "delta_degF"))
                picture.on.append(said[-1])
        if picture.superheat is None:
            for line, pressure, _, value in moment.superheats():
                picture.superheat = value
                picture.on += [line, pressure]
                break
        if picture.subcooling is None:
            for line, pressure, _, value in moment.subcoolings():
                picture.subcooling = value
                picture.on += [line, pressure]
                break
        condensing, air = moment.condensing(), moment.last(moment.temperatures(*AMBIENT))
        if condensing is not None and air is not None:
            picture.split = condensing[0] - value_in(air, "degF")
            picture.on += [condensing[1], air]
        evaporating, box = moment.evaporating(), moment.last(moment.temperatures(*BOX))
        if evaporating is not None:
            picture.evaporating = evaporating[0]
            picture.on.append(evaporating[1])
            if box is not None:
                picture.difference = value_in(box, "degF") - evaporating[0]
                picture.on.append(box)
        if picture.on:
            yield picture


def settled(picture: Picture, all_: list[Picture]) -> bool:
    """True when a picture as found has one as left after it: the repair answered what it asks."""
    return picture.moment.stage == "as_found" and any(
        p.moment.stage == "as_left" and p.moment.equipment == picture.moment.equipment for p in all_
    )


def ask(picture: Picture, all_: list[Picture], fits: bool, pattern: str, question: str) -> Finding:
    """Return the question that a pattern asks, or `ok` where it does not fit or was dealt with."""
    text = picture.words()
    if not fits:
        text = f"{text[0].upper()}{text[1:]}: not the pattern of {pattern}."
        return ok(text, *picture.on, computed=picture.numbers())
    if settled(picture, all_):
        return ok(
            f"As found {text}: the pattern of {pattern}. It was measured again after the repair.",
            *picture.on,
            computed=picture.numbers(),
        )
    return unsure(
        f"{text[0].upper()}{text[1:]}: this pattern is also that of {pattern}. It is a question, not a "
        "verdict.",
        *picture.on,
        computed=picture.numbers(),
        question=question,
    )
