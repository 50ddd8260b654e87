"""Which namings are one machine, and which machine each thing belongs to.

The machine that was named last is the subject until another one is named. With one machine in the visit
everything is its own; with several, what was said before any of them was named belongs to none.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from itertools import pairwise

from dictate.record.base import At
from dictate.record.visit import Equipment
from dictate.vocabulary.load import table
from dictate.writeup.order import Place, place

_GIVEN = re.compile(r'"[^"]*"')
_FIRST = frozenset({"", "1", "first"})
_NUMBERS = {"one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "first": "1",
    "second": "2", "third": "3", "fourth": "4", "fifth": "5"}  # fmt: skip


class Machines:
    """The machines of a visit, and when each was the subject."""

    def __init__(self, namings: Sequence[Equipment]) -> None:
        self.machines: list[Equipment] = []
        self.turns: list[tuple[Place, Equipment | None]] = []
        self.keys: list[str] = []
        for naming in sorted(namings, key=lambda e: place(e.at)):
            if naming.name == "":
                self.turns.append((place(naming.at), None))  # of none of them, until one is named
                continue
            machine = self._known(naming)
            if machine is None:
                machine = naming.model_copy(deep=True)
                self.machines.append(machine)
                self.keys.append(_key(naming))
            else:
                self._join(machine, naming)
            self.turns.append((place(naming.at), machine))
        for number, machine in enumerate(self.machines, start=1):
            machine.id = f"e{number}"

    def _known(self, naming: Equipment) -> Equipment | None:
        """Return the machine that this naming names again."""
        if naming.type is None and not naming.name:
            return self.turns[-1][1] if self.turns else None
        key = _key(naming)
        same = [
            (m, k) for m, k in zip(self.machines, self.keys, strict=True) if m.type in (naming.type, None)
        ]
        if naming.serial is not None:
            for machine, _ in same:
                if machine.serial == naming.serial:
                    return machine
            same = [(m, k) for m, k in same if m.serial is None]
        if not same:
            return None
        if key == "":
            now = self.turns[-1][1] if self.turns else None
            return next((m for m, _ in same if m is now), same[-1][0])
        for machine, known in same:
            if known == key:
                return machine
        for machine, known in same:
            if known in _FIRST and key in _FIRST:
                return machine
        within = [m for m, known in same if set(key.split()) < set(known.split())]
        if len(within) == 1:
            return within[0]  # "dairy case number 12 ... dairy first"
        for machine, known in same:
            if known == "" and (machine.type is None or (not _another(key) and len(same) == 1)):
                self.keys[self.machines.index(machine)] = key
                return machine
        return None

    def _join(self, machine: Equipment, naming: Equipment) -> None:
        for field in ("type", "model", "serial", "refrigerant", "name"):
            if getattr(machine, field) is None:
                setattr(machine, field, getattr(naming, field))
        machine.review.extend(r for r in naming.review if r not in machine.review)

    def of(self, at: At | None) -> str | None:
        """Return the id of the machine that was the subject at a place; None when it cannot be told."""
        if not self.machines:
            return None
        if len(self.machines) == 1:
            return self.machines[0].id
        here = place(at)
        current = [m for p, m in self.turns if p <= here]
        now = current[-1] if current else None
        return now.id if now is not None else None

    def get(self, id: str | None) -> Equipment | None:
        """Return the machine with this id."""
        return next((m for m in self.machines if m.id == id), None)


def _key(naming: Equipment) -> str:
    """Return what tells the machine from others of its kind, from its name.

    Numbers and words like "second".
    """
    kind = set((naming.type or "").replace("-", " ").split())
    words = [w for w in (naming.name or "").lower().replace("-", " ").split() if w not in kind]
    telling = _TELLING | _products() if naming.type in _BY_PRODUCT else _TELLING
    words = [
        w
        for w, after, before in zip(words, [*words[1:], ""], ["", *words], strict=False)
        if after not in _counted_looks() and not (w == "front" and before == "open")
    ]  # "five deck case", "open front case": how it looks
    picked = {w for w, after in pairwise(words) if after == "one"}  # "gym one", "library one"
    given = _GIVEN.findall((naming.name or "").lower())  # 'ice machine "larry"'
    kept = given + [
        _NUMBERS.get(w, w) for w in words if w in telling or w in picked or w.isdigit() or w in _NUMBERS
    ]
    return " ".join(kept)


_BY_PRODUCT = frozenset(("display case", "walk-in cooler", "walk-in freezer"))


@cache
def _products() -> frozenset[str]:
    """Return what a case or a cold room is called by: "the ham case", "the flower cooler"."""
    return frozenset(table("machines")["words"]["products"])


@cache
def _counted_looks() -> frozenset[str]:
    return frozenset(table("machine_words")["looks_counted"])


_TELLING = frozenset(
    [
        "other",
        "left",
        "right",
        "small",
        "big",
        "large",
        "little",
        "upper",
        "lower",
        "top",
        "bottom",
        "front",
        "back",
        "north",
        "south",
        "east",
        "west",
        "old",
        "new",
        "upstairs",
        "downstairs",
        "middle",
        "main",
        "outside",
        "inside",
        "kitchen",
        "bar",
        "last",
        "near",
        "far",
        "smaller",
        "larger",
        "bigger",
        "outdoor",
        "indoor",
        "dairy",
        "meat",
        "produce",
        "deli",
        "bakery",
        "seafood",
        "fish",
        "cheese",
        "frozen",
        "beer",
        "keg",
        "floral",
        "pizza",
        "sandwich",
        "salad",
        "a",
        "b",
        "c",
        "d",
        "e",
        "f",
        "g",
        "h",
    ]
)


def _another(key: str) -> bool:
    """Tell whether the words say that it is not the first one."""
    return any(w in key.split() for w in ("other", "2", "3", "4", "5", "6", "last"))
