"""The readings as they are taken: what is kept of each, and the words that all steps share.

A `Taken` is a reading with what later steps (corrections, doubts, context) need to know about it; a `Link`
is what was decided for a value before its reading is made; a `Zone` is the words that belong to it.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from dictate.mentions.labels import Label, LabelAt
from dictate.mentions.units_system import UnitSystem
from dictate.mentions.values import Value
from dictate.mentions.word_lists import word_list
from dictate.record.visit import Reading

PREPOSITIONS = word_list("readings_prepositions")

BREAKS = word_list("readings_breaks")

COPULAS = word_list("readings_copulas")

WORK = word_list("readings_work")

POSSIBLE: dict[str, tuple[str, ...]] = {
    "V": ("voltage",), "A": ("current",), "ohm": ("resistance",), "uF": ("capacitance",), "W": ("power",),
    "Hz": ("frequency",), "psi": ("pressure",), "kPa": ("pressure",), "bar": ("pressure",),
    "mbar": ("vacuum", "pressure"), "Pa": ("vacuum", "pressure"), "inHg": ("pressure",),
    "micron": ("vacuum",),
    "degF": ("temperature", "superheat", "subcooling", "temperature_difference"),
    "degC": ("temperature", "superheat", "subcooling", "temperature_difference"),
    "delta_degF": ("superheat", "subcooling", "temperature_difference"),
    "delta_degC": ("superheat", "subcooling", "temperature_difference"),
    "lb": ("mass",), "oz": ("mass",), "g": ("mass",), "kg": ("mass",), "ft3/h": ("flow",),
    "gal/min": ("flow",),
    "L/min": ("flow",), "s": ("duration",), "min": ("duration",), "h": ("duration",), "in": ("length",),
    "ft": ("length",), "mm": ("length",), "rpm": ("speed",), "%": ("concentration",),
    "ppm": ("concentration",),
}  # fmt: skip

DIFFERENCES = frozenset({"superheat", "subcooling", "temperature_difference"})

ELECTRICAL = frozenset({"voltage", "current", "resistance", "capacitance", "power", "frequency", "speed"})

SWITCHGEAR = word_list("readings_switchgear")

NOMINAL_VOLTS = frozenset(
    {
        5,
        6,
        9,
        12,
        24,
        48,
        100,
        110,
        115,
        120,
        125,
        127,
        200,
        208,
        220,
        230,
        240,
        250,
        265,
        277,
        346,
        347,
        370,
        380,
        400,
        415,
        440,
        450,
        460,
        480,
        575,
        600,
        690,
    }
)
"""Voltages that plates and parts are marked with; common practice."""

MOTORS = word_list("readings_motors")


@dataclass(slots=True)
class Taken:
    """A reading with what later steps (corrections, context) need to know about it."""

    reading: Reading
    value: Value
    start: int
    end: int
    sentence: int
    label: Label | None = None
    said_unit: bool = True
    explicit: bool = False
    """True when a label, a component or a point stood beside the value itself."""
    place_said: bool = False
    """True when the component or the point was said in the same breath."""
    how: str = "unit"
    """What tied the value to what it measures: unit, label, component, point, setting, list, test, carry."""
    label_here: bool = False
    """True when the label stands in this value's own words."""

    def unlike_mains(self) -> bool:
        """Tell whether the value is far from any supply voltage, and so is what goes on from it."""
        return self.reading.value is not None and not mains(self.reading.value) and self.reading.value > 0

    movement: bool = False
    """True for a mass that goes to the movements; it takes part in corrections only."""


@dataclass
class Found:
    """What came out: the readings in order, and the unit system of the visit."""

    readings: list[Taken] = field(default_factory=list)
    units: UnitSystem = field(default_factory=lambda: UnitSystem("us", True))


@dataclass(slots=True)
class Zone:
    """The words that belong to one value (or one list of values): items before and after it."""

    pre: tuple[int, int]
    post: tuple[int, int]


@dataclass(slots=True)
class Link:
    """What was decided for a value."""

    quantity: str
    unit: str
    amount: float
    label: Label | None = None
    label_at: LabelAt | None = None
    unit_said: bool = True
    explicit: bool = False
    reasons: list[str] = field(default_factory=list)
    point: str | None = None
    component: str | None = None
    which: str | None = None
    reference: str | None = None
    derived: bool = False
    rated: bool = False
    carried: Taken | None = None
    how: str = "unit"
    share: float | None = None
    """How much of all evidence speaks for this quantity, 0 to 1; None where nothing was weighed."""


LINKING = word_list("readings_linking")

RATED_NOUNS = word_list("readings_rated_nouns")

CLOCKED = tuple(
    [word, "at"]
    for word in ("in", "out", "on", "off", "arrived", "left", "started", "finished", "here", "there", "done")
)
"""What stands before a time of day, whatever test goes on meanwhile."""

SMALL = {
    "one": "1",
    "two": "2",
    "three": "3",
    "four": "4",
    "five": "5",
    "six": "6",
    "seven": "7",
    "eight": "8",
}

LOOSE = "was not said beside it"
"""The reason that a correction takes away: a repair is a value of what it repairs."""

BY_WORDS_ONLY = "only because of the words around it"
BY_ALL_EVIDENCE = "because of all that was said around it"
FAR_FROM_LABEL = "and what it may be a value of"
READ_NOW_BY_WORDS = "taken as a reading of now, because of the words around it"
OTHERWISE_BY_WORDS = "because of the words around it"
"""Pieces of the reasons that the readers give on soft evidence, as `LOOSE` is."""

PLAIN = word_list("readings_plain")

ALL_THREE = {
    "voltage": ("L1-L2", "L2-L3", "L1-L3"),
    "current": ("L1", "L2", "L3"),
    "resistance": ("L1-L2", "L2-L3", "L1-L3"),
}
"""The points of a value that was said of all three phases at once."""


def mains(value: float) -> bool:
    """Tell whether a bare number is near a control or mains voltage."""
    return 18 <= value <= 30 or 95 <= value <= 135 or 180 <= value <= 260 or 370 <= value <= 500


def warmth_was_read(taken: list[Taken]) -> bool:
    """Tell whether the last temperature was one that was read, and no setting."""
    last = next((t for t in reversed(taken) if t.reading.quantity == "temperature"), None)
    return last is not None and last.reading.role == "measured"
