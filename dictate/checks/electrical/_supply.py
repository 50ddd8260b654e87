"""Which voltages are supply voltages, which currents are steady, and what the plate allows."""

from __future__ import annotations

from dictate.checks.electrical._legs import LINES
from dictate.checks.facts import Facts, exact, number_in, phrases, same_part, value_in
from dictate.record.visit import Reading

CONTROL = ("thermostat", "board", "transformer", "valve", "sensor", "switch", "solenoid", "coil", "relay",
           "capacitor", "timer", "fuse")  # fmt: skip
"""Words of components at which a voltage is no motor supply; a disconnect switch is not meant by them."""

SPIKE = phrases("start_current")
STEADY = phrases("steady_current")
NOT_A_LOAD_RATING = phrases("no_load_rating")


def _has(text: str, phrases: tuple[str, ...]) -> bool:
    return any(f" {p} " in f" {text} " for p in phrases)


def is_supply(reading: Reading) -> bool:
    """True for a voltage between lines, at a motor, a disconnect, a panel or where no component was said."""
    if reading.state == "open" or reading.value is None:
        return False
    if reading.derived and " to " not in f" {reading.heard.lower()} ":
        return False  # volts lost; "drops to ninety eight" is what is left
    name = reading.component or ""
    if reading.point in LINES:
        return True
    if reading.point is not None and reading.point not in ("line", "load", "supply", "panel", "terminals"):
        return False
    return name.startswith("disconnect") or not any(word in name for word in CONTROL)


def ratings(facts: Facts, reading: Reading) -> list[float]:
    """Return the rated volts that apply at a reading: of its own component if said, else of the machine."""
    plate = [
        p
        for p in facts.plate(reading.equipment, "voltage")
        if p.name != "coil" and not any(w in (p.component or "") for w in (*CONTROL, "contactor"))
    ]
    own = [p for p in plate if p.component and same_part(p.component, reading.component)]
    if not own:
        own = [p for p in plate if p.component in (None, "compressor", "condensing unit", "unit")]
    return sorted({number_in(p.value, p.unit, "V") for p in own})


def is_spike(facts: Facts, reading: Reading) -> bool:
    """True when the words say that a current was one of starting or of a locked rotor."""
    if reading.which and _has(reading.which.lower(), SPIKE):
        return True
    before, after = facts.around(reading)
    if _has(before, STEADY) and reading.at.first_word is not None:
        return False
    for phrase in STEADY:  # what comes after "settled in at" is about the next number
        after = after.split(f" {phrase} ")[0] if f" {phrase} " in f" {after} " else after
    if any(after.startswith(p) for p in ("starting", "to start", "on start", "at start", "start")):
        return True
    return _has(f"{before} {reading.heard.lower()} {after}", SPIKE)


def at_start(facts: Facts, reading: Reading) -> bool:
    """True when the words say that a value was read while the motor started."""
    if reading.at.first_word is None:
        return False
    before, after = facts.around(reading)
    return _has(f"{before} {reading.heard.lower()} {after}", (*SPIKE, *phrases("while_starting")))


def load_ratings(facts: Facts, reading: Reading) -> list[tuple[float, Reading | None]]:
    """Return the rated load amps of a reading's component, each with the reading that said it if any."""
    found: list[tuple[float, Reading | None]] = []
    for r in facts.readings("current", role="rated"):
        if not exact(r) or r.equipment not in (reading.equipment, None):
            continue
        # "Drawing fourteen and the nameplate is eleven six on the compressor" names the part only once.
        alone = reading.component is None or (r.component is None and reading.component == "compressor")
        beside = alone and abs(facts.place(r) - facts.place(reading)) == 1
        beside = beside and facts.one_sentence(*sorted((r, reading), key=facts.place))
        if not (
            same_part(r.component, reading.component) or r.component is reading.component is None or beside
        ):
            continue
        before, after = facts.around(r, before=4, after=4)
        label = f"{r.which or ''} {r.point or ''} {r.heard} ".lower()
        if r.at.first_word is not None:
            label += f"{before} {after}"
        if not _has(" ".join(label.split()), NOT_A_LOAD_RATING):
            found.append((value_in(r, "A"), r))
    machine = facts.machine(reading.equipment)
    for p in machine.plate if machine is not None else []:
        label = f"{p.name or ''} {p.heard}".lower()
        if p.quantity == "current" and not _has(label, NOT_A_LOAD_RATING):
            fits = same_part(p.component, reading.component)
            if fits or (p.component is None and reading.component == "compressor"):
                amps = number_in(p.value, p.unit, "A")
                if all(abs(amps - a) > 1e-9 for a, _ in found):
                    found.append((amps, None))
    return found


def locked_rotor_ratings(facts: Facts, reading: Reading) -> list[float]:
    """Return the locked-rotor amps that were said for a reading's component."""
    found = []
    for r in facts.readings("current", role="rated"):
        before, after = facts.around(r, before=4, after=4)
        label = f"{r.which or ''} {r.heard} ".lower() + (
            f"{before} {after}" if r.at.first_word is not None else ""
        )
        if _has(" ".join(label.split()), ("lra", "locked rotor")) and same_part(
            r.component, reading.component
        ):
            found.append(value_in(r, "A"))
    machine = facts.machine(reading.equipment)
    for p in machine.plate if machine is not None else []:
        if p.quantity == "current" and _has(f"{p.name or ''} {p.heard}".lower(), ("lra", "locked rotor")):
            found.append(number_in(p.value, p.unit, "A"))
    return found
