"""Parts that the words around an electrical value tell, once all values are taken.

    told_electric(found, words, components)

"The condenser one 7.8" goes on with the fan motor before it, "circuit two 8.3" with the heaters under the
clamp, "892 rpm" with the blower whose belt was set; "alternator 13.0" is not of the battery, "24 volt side
19.6" is of the transformer, and "plugged in to the same ring, 237" of the line.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from dictate.mentions.labels import ComponentAt
from dictate.mentions.whose.taken import MOTORS, SWITCHGEAR, Found, Taken
from dictate.mentions.word_lists import word_list

_ENDS = frozenset((".", "?", "!", ";"))
_SIDES = {
    "condenser": "condenser fan motor",
    "outdoor": "condenser fan motor",
    "evaporator": "evaporator fan motor",
    "evap": "evaporator fan motor",
    "indoor": "evaporator fan motor",
}
_ROWS = frozenset(("circuit", "circuits", "bank", "element", "stage", "leg", "phase", "heater"))
_LIVE = 90.0
_CONTROL = 40.0
_BELT_REACH = 60
_WINDINGS_REACH = 22


def told_electric(found: Found, words: Sequence[str], components: Sequence[ComponentAt]) -> None:
    """Set the parts and points of electrical values that the words around them tell, in place."""
    for t in found.readings:
        r = t.reading
        if r.quantity == "voltage" and r.state == "value" and r.value is not None:
            _alternator(t, words)
            _low_side(t, words)
            _coil_of(t, words, components)
            _fed_from(t, words, components)
            if r.point is None and r.component is None and r.value >= _LIVE:
                r.point = "line" if word_list("told_electric_plugged") & set(_lead(t, words, 9)) else None
        elif r.quantity == "current" and r.component == "light":
            _no_light(t, words, components)
        if r.quantity == "current" and r.component == "compressor":
            _heaters(t, words, components)
        if r.quantity == "speed" and r.component is None:
            belt = word_list("told_electric_belts") & set(words[max(0, t.start - _BELT_REACH) : t.start])
            r.component = "blower motor" if belt else None
        if r.quantity == "speed" and r.component == "condenser fan motor":
            _of_the_belt(t, words, components)
        if r.quantity in {"resistance", "voltage"} and r.component not in MOTORS:
            _expansion_valve(t, words, components)
        small = r.component in SWITCHGEAR or r.component in word_list("told_electric_small")
        if r.quantity == "resistance" and small and r.state == "value":
            r.component = _wound(t, words, components) or r.component
        if r.quantity == "resistance" and r.component == "compressor":
            r.component = _motor_checked(t, words, components) or r.component
        elif r.quantity == "resistance" and r.component == "motor":
            r.component = _of_a_circuit(t, words, components) or r.component
    for a, b in pairwise(found.readings):
        _the_other_fan(a, b, words)
        _with_its_turns(a, b, components)


def _lead(t: Taken, words: Sequence[str], size: int) -> list[str]:
    """Return the words in front of a value in its sentence."""
    lead = list(words[max(0, t.start - size) : t.start])
    return lead[max((i for i, w in enumerate(lead) if w in _ENDS), default=-1) + 1 :]


def _alternator(t: Taken, words: Sequence[str]) -> None:
    """Read "alternator 13.0" as its own, though a vehicle's volts are mostly the battery's."""
    lead = [w for w in _lead(t, words, 4) if w not in {"is", "was", "at", "the", "puts", "out", "makes"}]
    if t.reading.component == "battery" and lead[-1:] == ["alternator"]:
        t.reading.component = "alternator"


def _low_side(t: Taken, words: Sequence[str]) -> None:
    """Read "24 volt side only 19.6" as the secondary of the transformer."""
    lead = _lead(t, words, 8)
    said = " ".join(lead)
    if not any(f"{p} side" in said for p in ("24 volt", "four volt", "control voltage", "low voltage")):
        return
    r = t.reading
    if (
        r.role == "measured"
        and (r.value or 0) < _CONTROL
        and r.component not in word_list("told_electric_on_control")
    ):
        r.component, r.point = "transformer", r.point or "secondary"


def _fed_from(t: Taken, words: Sequence[str], components: Sequence[ComponentAt]) -> None:
    """Read "the transducer's getting 4.9 volts off the board": they are of the part that gets them.

    What it "sends back" in the same sentence is its signal.
    """
    lead = _lead(t, words, 24)
    begin = t.start - len(lead)
    sources = word_list("fed_from_sources")
    fed = (
        words[t.end : t.end + 1] in (["off"], ["from"])
        and _GETS & set(lead[-4:])
        and any(t.end < c.start <= t.end + 2 and c.name in sources for c in components)
    )
    sent = lead[-1:] == ["back"] and _SENDS & set(lead[-3:])
    if not fed and not sent:
        return
    getting = [c for c in components if begin <= c.start < t.start and c.name not in sources]
    if getting and "voltage" in getting[-1].component.measures:
        t.reading.component, t.reading.which = getting[-1].name, getting[-1].which
        t.reading.point = None if t.reading.point in {"secondary", "primary"} else t.reading.point


_GETS = frozenset(("gets", "getting", "got", "has", "sees", "receives"))
_SENDS = frozenset(("sends", "sending", "sent", "gives", "giving", "puts", "putting", "coming", "comes"))


def _coil_of(t: Taken, words: Sequence[str], components: Sequence[ComponentAt]) -> None:
    """Read "contactor 2, the coil is 26 volts": the coil is of the part that its sentence names."""
    lead = _lead(t, words, 9)
    if t.reading.point != "coil" or (lead[-3:-1] != ["the", "coil"] and lead[-2:] != ["the", "coil"]):
        return
    begin = t.start - len(lead)
    named = [c for c in components if begin <= c.start < t.start and "voltage" in c.component.measures]
    if named and t.reading.component not in {c.name for c in named}:
        t.reading.component, t.reading.which = named[-1].name, named[-1].which


def _expansion_valve(t: Taken, words: Sequence[str], components: Sequence[ComponentAt]) -> None:
    """Read ohms and volts of an expansion valve that its sentence names last: it is one that is driven."""
    if t.reading.point not in {None, "coil"}:
        return
    begin = t.start - len(_lead(t, words, 24))
    named = [c for c in components if begin <= c.start < t.start]
    if named and named[-1].name == "expansion valve":
        t.reading.component, t.reading.which = "electronic expansion valve", named[-1].which


def _no_light(t: Taken, words: Sequence[str], components: Sequence[ComponentAt]) -> None:
    """Take amps off a light that was only seen: "the module's light is red ... amps 10.9"."""
    begin = t.start - len(_lead(t, words, 14))  # what draws amps and is not named is the compressor
    if any(c.name == "light" and c.start >= begin and c.start < t.end + 6 for c in components):
        return
    t.reading.component = "compressor"


def _heaters(t: Taken, words: Sequence[str], components: Sequence[ComponentAt]) -> None:
    """Read "the clamp over the heater circuits. Circuit one has 8.4 amps" as the heaters'."""
    lead = _lead(t, words, 12)
    if not _ROWS & set(lead):
        return
    near = [c for c in components if t.start - 30 <= c.start < t.start and not c.backdrop]
    if not near or any(c.name == "compressor" for c in near):
        return
    heaters = [c for c in near if c.name.endswith("heater") and "circuits" in words[c.end : c.end + 1]]
    if heaters:
        name = heaters[-1].name
        t.reading.component = "defrost heater" if name == "heater" else name


def _of_the_belt(t: Taken, words: Sequence[str], components: Sequence[ComponentAt]) -> None:
    """Take turns for the blower's where a belt was set and no fan is named beside them."""
    begin = t.start - len(_lead(t, words, 12))
    named = any(begin <= c.start < t.end + 5 and c.name.endswith("motor") for c in components)
    if not named and word_list("told_electric_belts") & set(words[max(0, t.start - _BELT_REACH) : t.start]):
        t.reading.component = "blower motor"


def _wound(t: Taken, words: Sequence[str], components: Sequence[ComponentAt]) -> str | None:
    """Return the motor of "windings on number two, one point one" said behind its contactor or relay.

    They may have been named in the sentence before: "Looked at the windings first. 0.8, 2.7".
    """
    begin, stops = t.start, 0
    while begin > max(0, t.start - _WINDINGS_REACH) and words[begin - 1] != "windings":
        begin -= 1
        stops += words[begin] in _ENDS
    beside = {"winding", "windings"} & set(_lead(t, words, 10))
    if not beside and (words[begin - 1 : begin] != ["windings"] or stops > 1):
        return None
    begin = t.start - len(_lead(t, words, 10)) if beside else begin
    if any(begin <= c.start < t.start and c.name not in SWITCHGEAR for c in components):
        return None
    near = [c.name for c in components if c.start < t.start and c.name in MOTORS]
    return "compressor" if "compressor" in near or not near else near[-1]


def _motor_checked(t: Taken, words: Sequence[str], components: Sequence[ComponentAt]) -> str | None:
    """Return the motor that the sentence before says was checked: "Checked the fan motor. Common to run"."""
    begin = t.start
    stops = 0
    while begin > 0 and t.start - begin < 45 and stops < 3:
        begin -= 1
        if words[begin] in _ENDS:
            stops += 1
            if word_list("told_electric_checks") & set(words[begin + 1 : begin + 4]):
                break
    head = words[begin + 1 : begin + 4]
    if not word_list("told_electric_checks") & set(head):
        return None
    named = [c for c in components if begin < c.start < t.start]
    motors = [c for c in named if c.name in word_list("readings_motors") or c.name.endswith("motor")]
    if not motors or any(c.name == "compressor" for c in named) or motors[0].name == "motor":
        return None
    return motors[0].name if len({c.name for c in motors}) == 1 else None


def _of_a_circuit(t: Taken, words: Sequence[str], components: Sequence[ComponentAt]) -> str | None:
    """Return the compressor for "megged the motor" of a circuit, where no pump and no fan is spoken of."""
    near = [c.name for c in components if t.start - 60 <= c.start < t.start and not c.backdrop]
    other = any(n.endswith(("pump", "fan motor", "blower motor", "gear motor")) for n in near)
    said = {"circuit", "compressor", "compressors", "stage"} & set(words[max(0, t.start - 90) : t.start])
    return "compressor" if said and not other else None


def _the_other_fan(a: Taken, b: Taken, words: Sequence[str]) -> None:
    """Read "fan motor on the evaporator 6.2 amps, the condenser one 7.8"."""
    one, two = a.reading, b.reading
    if (
        one.quantity != two.quantity
        or a.sentence != b.sentence
        or not (one.component or "").endswith("fan motor")
    ):
        return
    gap = [w for w in words[a.end : b.start] if w not in {"is", "at", "was", "draws", "pulls", "'s"}]
    if len(gap) >= 2 and gap[-1] == "one" and gap[-2] in _SIDES:
        two.component = _SIDES[gap[-2]]


def _with_its_turns(a: Taken, b: Taken, components: Sequence[ComponentAt]) -> None:
    """Read "892 rpm, amps 5.2" as the blower's, and the legs behind it, where nothing else is named."""
    one, two = a.reading, b.reading
    if two.quantity != "current" or a.sentence != b.sentence or two.component != "compressor":
        return
    if one.component != "blower motor" or one.quantity not in {"speed", "current"} or b.start - a.end > 4:
        return
    if not any(a.end <= c.start < b.start for c in components):
        two.component = one.component


__all__ = ["told_electric"]
