"""Components of components.toml in a narration; general words become the exact one that is meant."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import pairwise

from dictate.mentions.labels.backdrops import is_backdrop
from dictate.mentions.labels.other_things import OFTEN_OTHER, is_other_thing
from dictate.mentions.labels.which_one import which_of_several
from dictate.mentions.narration import Narration
from dictate.mentions.phrases import Phrases
from dictate.mentions.spoken_numbers import numbers_by_end, numbers_by_start
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import table


@dataclass(frozen=True, slots=True)
class Component:
    """An entry of components.toml."""

    name: str
    measures: frozenset[str]
    generic: bool
    default: str
    reach: int
    hints: dict[str, frozenset[str]]
    family: tuple[str, ...]
    bare: str | None
    sets: str | None
    places: dict[str, frozenset[str]]
    machines: dict[str, tuple[str, ...]]
    shared: frozenset[str]


@dataclass(frozen=True, slots=True)
class ComponentAt:
    """A component named at the tokens [start, end); `name` is resolved, `which` tells several alike apart."""

    start: int
    end: int
    name: str
    component: Component
    which: str | None = None
    whose: bool = False
    """True for one that only tells what the component before it is for: "the contactor for the beater"."""
    backdrop: bool = False
    """True for one that only tells when or why: "while the board was calling"."""


@cache
def components() -> dict[str, Component]:
    """Return the components of components.toml by name."""
    out = {}
    for entry in table("components")["component"]:
        out[entry["name"]] = Component(
            entry["name"],
            frozenset(entry["measures"]),
            entry.get("generic", False),
            entry.get("default", entry["name"]),
            entry.get("reach", 120),
            {name: frozenset(words) for name, words in entry.get("hints", {}).items()},
            tuple(entry.get("family", ())),
            entry.get("bare"),
            entry.get("sets"),
            {name: frozenset(words) for name, words in entry.get("places", {}).items()},
            {name: tuple(words) for name, words in entry.get("machines", {}).items()},
            frozenset(entry.get("shared", ())),
        )
    return out


@cache
def _component_phrases() -> Phrases:
    said: dict[str, list[str]] = {}
    for entry in table("components")["component"]:
        forms = [entry["name"], *entry["said"]]
        plural = [f + "s" for f in forms if not f.endswith(("s", "x")) and len(f) > 3]
        said[entry["name"]] = forms + plural
    return Phrases(said)


def find_components(narration: Narration) -> list[ComponentAt]:
    """Return the components named in the narration, generic words resolved."""
    done: list[ComponentAt] | None = narration.found.get("components")
    if done is not None:
        return done
    known = components()
    out: list[ComponentAt] = []
    last: dict[str, tuple[str, int]] = {}
    numbered: dict[str, str] = {}
    several: dict[str, str] = {}
    klixon: str | None = None
    for phrase in _component_phrases().find(narration):
        component = known[phrase.key]
        name = component.name
        if component.name == "pump" and _vacuum_talk(narration, phrase.start):
            continue
        if component.name == "heater" and _other_rod(narration, phrase.start, phrase.end):
            continue
        if name in OFTEN_OTHER and is_other_thing(narration, name, phrase.start, phrase.end):
            continue
        if component.shared and not _live(narration, component, phrase.start, phrase.end):
            continue
        led = narration.tokens[phrase.start - 1].lower if phrase.start else ""
        if component.name == "fan motor" and (
            led in word_list("labels_other_fans") or _blown_on(narration, phrase.start, phrase.end)
        ):
            continue
        which = which_of_several(narration, phrase.start, phrase.end)
        if component.generic:
            generic = component.name
            counted = which is not None and which.isdigit()
            placed = _placed(narration, component, phrase.start, phrase.end)
            # "Fan one ... fan two ...": a row of numbered ones is of one kind
            same = numbered.get(generic) if counted else None
            if same is None and which in word_list("labels_sides"):
                # "Two evap fans in it ... left fan 0.23": one side of the several that were named
                same = None if _told_here(narration, component, phrase.start) else several.get(generic)
            if placed is None and same is None and led in {"both", "all"} and several.get(generic):
                # "Two evaporator fans ... condenser cleaned. Both fans run": those that were counted
                same = None if _told_here(narration, component, phrase.start) else several[generic]
            if placed is None and same is None and component.name == "fan motor":
                same = _several_fans(narration, component, phrase.start, phrase.end, several)
            if placed is None and same is None and component.name == "fan motor":
                same = _failed(narration, out, component, phrase.start)
            name = placed or same or _resolve(narration, component, phrase.start, last)
            component = known[name]
            if counted:
                numbered[generic] = name
            if (
                name == "relay"
                and phrase.end - phrase.start == 1
                and _starts_a_motor(narration, phrase.start)
            ):
                name, component = "start relay", known["start relay"]
        elif name == "hot gas valve" and _makes_ice(narration, phrase.start, phrase.end):
            name, component = "harvest valve", known["harvest valve"]
        elif name in _WITH_KLIXONS and narration.tokens[phrase.end - 1].lower == "klixon":
            if phrase.end - phrase.start == 1:  # "termination klixon is open. Fitted a new klixon"
                name = klixon or name
                component = known[name]
            klixon = name
        many = narration.tokens[phrase.end - 1].lower
        many_said = many.endswith("s") and not many.endswith("ss")
        for wider in known.values():
            if name in wider.family:
                last[wider.name] = (name, phrase.start)
                if many_said:
                    several[wider.name] = name
        whose = bool(out) and _tells_whose(narration, out[-1], phrase.start, name)
        aside = is_backdrop(narration.lowers, phrase.start, phrase.end)
        out.append(ComponentAt(phrase.start, phrase.end, name, component, which, whose, aside))
    narration.found["components"] = out
    return out


_WITH_KLIXONS = frozenset({"overload", "defrost termination switch"})


def _several_fans(
    narration: Narration, component: Component, start: int, end: int, several: dict[str, str]
) -> str | None:
    """Return the fans that several of one machine are: a cold box blows with more than one over its coil.

    Not where more than one condenser fan was spoken of, or the sentence tells which fans are meant.
    """
    words = narration.lowers
    if not words[end - 1].endswith("s") or several.get("fan motor") == "condenser fan motor":
        return None
    if _told_here(narration, component, start) or words[start - 1] in {"both", "condensing"}:
        return None
    box = "evaporator fan motor"
    return box if _by_machine(narration, component, start) == box else None


def _failed(narration: Narration, named: list[ComponentAt], component: Component, start: int) -> str | None:
    """Return the kind of a new fan that goes in, where one kind was said to be bad and another to be sound.

    "The fan inside reads open. The compressor fan is fine. New | fan | in".
    """
    words = narration.lowers
    if words[start - 1 : start] != ["new"]:
        return None
    bad: set[str] = set()
    for c in named:
        said = words[c.end : c.end + 10]
        said = said[: next((k for k, w in enumerate(said) if w in {".", "?", "!", ";"}), len(said))]
        failed = not word_list("said_to_be_bad").isdisjoint(said) and "not" not in said
        if c.name in component.family and failed and word_list("said_to_be_good").isdisjoint(said):
            bad.add(c.name)
    return next(iter(bad)) if len(bad) == 1 else None


def _starts_a_motor(narration: Narration, at: int) -> bool:
    """Tell whether plain "relay" starts a hermetic motor: its overload or its pins are near."""
    words = narration.lowers
    before = words[at - 1] if at else "."
    if before in word_list("labels_other_relays"):
        return False
    return bool(word_list("labels_start_relay_talk") & set(words[max(0, at - 40) : at + 20]))


def _makes_ice(narration: Narration, start: int, end: int) -> bool:
    """Tell whether a hot gas valve is one that lets ice off its plate: harvests are spoken of."""
    if "bypass" in narration.lowers[start : end + 1]:
        return False
    known: bool | None = narration.found.get("harvests")
    if known is None:
        known = not {"harvest", "harvests", "harvesting", "cuber"}.isdisjoint(narration.lowers) or any(
            a == "ice" and b in {"machine", "maker", "machines"} for a, b in pairwise(narration.lowers)
        )
        narration.found["harvests"] = known
    return known


def _told_here(narration: Narration, component: Component, at: int) -> bool:
    """Tell whether a word of the same sentence tells which of a family is meant."""
    tokens = narration.tokens
    for i in range(at - 1, max(-1, at - 12), -1):
        if tokens[i].lower in {".", "?", "!", ";"} or tokens[i].segment != tokens[at].segment:
            return False
        if any(tokens[i].lower in words for words in component.hints.values()):
            return True
    return False


def _tells_whose(narration: Narration, head: ComponentAt, at: int, name: str) -> bool:
    """Tell whether a component at token `at` only tells what the one before is for."""
    if head.name not in word_list("labels_serves") or at - head.end > 4:
        return False
    between = [t.lower for t in narration.tokens[head.end : at]]
    if (
        head.name == "breaker"
        and name == "panel"
        and between in (["at", "the"], ["in", "the"], ["on", "the"])
    ):
        return True
    return between[:1] in (["for"], ["of"], ["on"]) and set(between[1:]) <= word_list("labels_serves_gap")


def _blown_on(narration: Narration, start: int, end: int) -> bool:
    """Tell whether a fan is the technician's own: "I put the fan on it", "set a fan blowing on the dome"."""
    before = [t.lower for t in narration.tokens[max(0, start - 3) : start]]
    after = [t.lower for t in narration.tokens[end : end + 2]]
    led = before[-1:] and before[-1] in {"a", "the", "my", "our"} and word_list("labels_puts") & set(before)
    return (
        bool(led) and bool(after) and after[0] in {"on", "blowing", "at", "over", "across", "against", "onto"}
    )


def _other_rod(narration: Narration, start: int, end: int) -> bool:
    """Tell whether a plain "rod" is none that heats: of a weld, of a piston, of a door."""
    words = narration.lowers
    if end - start > 1 or words[start] not in {"rod", "rods"}:
        return False
    close = set(words[max(0, start - 8) : end + 6])
    if close & word_list("labels_other_rods"):
        return True
    behind = words[end : end + 4]
    if behind[:1] == ["in"] and {"coil", "evaporator", "evap", "pan"} & set(behind):
        return False
    return not word_list("labels_heating_talk") & set(words[max(0, start - 120) : end + 40])


def _live(narration: Narration, component: Component, start: int, end: int) -> bool:
    """Tell whether a word that pipes share, as "outlet", is of mains here: a word or size of theirs near."""
    words = narration.lowers
    if end - start > 1 or words[start] not in component.shared:
        return True
    low, high = max(0, start - 8), min(len(words), end + 8)
    if word_list("labels_mains_talk") & set(words[low:high]):
        return True
    numbers = numbers_by_start(narration)
    near = [numbers[i].value for i in range(low, high) if i in numbers]
    return any(100 <= value <= 130 or 200 <= value <= 250 for value in near)


def _vacuum_talk(narration: Narration, at: int) -> bool:
    """Tell whether "the pump" is the vacuum pump, which is no part of the machine."""
    words = [t.lower for t in narration.tokens[max(0, at - 60) : at + 60]]
    close = set(words[max(0, min(at, 60) - 12) : min(at, 60) + 4])
    if close & word_list("labels_vacuum_talk_2"):
        return False
    if close & word_list("labels_vacuum_talk"):
        return True
    wet = set(words) & {"water", "glycol", "chilled", "tower", "bath", "loop"}
    return not wet and bool(set(words) & {"valved", "vacuum", "micron", "microns", "evacuated", "nitrogen"})


def _placed(narration: Narration, component: Component, start: int, end: int) -> str | None:
    """Return what a generic word stands for by the place said with it: "fans on the coil", "roof fan"."""
    if not component.places:
        return None
    tokens = narration.tokens
    before = tokens[start - 1].lower if start else ""
    for name, words in component.places.items():
        if before in words:
            return name
    behind = tokens[end].lower if end < len(tokens) else ""
    if behind in word_list("labels_fan_where"):
        for name, words in component.places.items():
            if behind in words:
                return name
    opened = _sentence_place(narration, component, start)
    if opened is not None:
        return opened
    at = end
    follows = tokens[at + 1].lower if at + 1 < len(tokens) else ""
    if follows in word_list("labels_placed") and tokens[at].lower in {"down", "up", "out", "over"}:
        at += 1
    if at >= len(tokens) or tokens[at].lower not in word_list("labels_placed"):
        return None
    for i in range(at + 1, min(at + 5, len(tokens))):
        low = tokens[i].lower
        if low in {",", ".", "is", "was", "and"}:
            return None
        if low in {"cooler", "coolers"} and tokens[i - 1].lower in word_list("labels_outdoor_coolers"):
            return "condenser fan motor" if "condenser fan motor" in component.places else None
        for name, words in component.places.items():
            if low in words:
                return name
    return None


def _sentence_place(narration: Narration, component: Component, start: int) -> str | None:
    """Return what a generic word stands for by the place that its sentence opens with: "In the box, ..."."""
    tokens = narration.tokens
    i = start
    while i > 0 and start - i < 16 and tokens[i - 1].lower not in {".", "?", "!", ";", ":"}:
        i -= 1
        if tokens[i].segment != tokens[start].segment:
            return None
    lead = [t.lower for t in tokens[i : min(i + 6, start)]]
    if "," not in lead or lead[:1] not in (
        ["in"],
        ["on"],
        ["inside"],
        ["outside"],
        ["at"],
        ["up"],
        ["out"],
        ["over"],
    ):
        return None
    lead = lead[: lead.index(",")]
    for name, words in component.places.items():
        if set(lead) & words:
            return name
    return None


def _by_machine(narration: Narration, component: Component, at: int) -> str | None:
    """Return the one of a family that this kind of machine has: the machine named last, else next."""
    if not component.machines:
        return None
    found: list[tuple[int, str]] | None = narration.found.get("machine words")
    if found is None:
        text = " " + " ".join(narration.lowers) + " "
        spans = []
        for name, phrases in component.machines.items():
            for phrase in phrases:
                if phrase.partition(" ")[0] not in narration.places:
                    continue
                place = text.find(f" {phrase} ")
                while place >= 0:
                    if not text.endswith(_PLATE_ON_THE, 0, place):  # "nameplate on the condensing unit"
                        spans.append((place + len(phrase), -len(phrase), phrase, name))
                    place = text.find(f" {phrase} ", place + 1)
        spans.sort()
        found, ends, heads = [], set(), {}
        for end, length, phrase, name in spans:
            if end in ends:
                continue  # the longest of those that end here
            ends.add(end)
            # A blast chiller is "the chiller" from then on, a water cooler "the cooler".
            head = phrase.split()[-1].removesuffix("s")
            if phrase.removesuffix("s") != head:
                heads[head] = name
            found.append((end + length, heads.get(head, name)))
        narration.found["machine words"] = found
    if not found:
        return None
    here = len(" ".join(narration.lowers[:at]))
    before = [name for place, name in found if place < here]
    return before[-1] if before else found[0][1]


def _head_is_up(narration: Narration, component: Component, at: int) -> bool:
    """Tell whether a fan that no word places stands still where the head went up: "HP out. Fan is dead"."""
    if component.name != "fan motor":
        return False
    near = narration.lowers[max(0, at - 45) : at]
    if word_list("labels_cold_side") & set(near[-25:]) or not word_list("labels_head_up") & set(near):
        return False
    if not word_list("labels_stands_still") & set(narration.lowers[at : at + 9]):
        return False
    high = any(a == "high" and b in {"pressure", "side", "head"} for a, b in pairwise(near))
    return high or bool({"hp", "head", "hps"} & set(near))


_PLATE_ON_THE = ("plate on the", "nameplate on the", "tag on the", "label on the")
_NEAR_HINT = 25
"""Tokens within which a word tells which of a family is meant before the kind of machine does."""


def _all_in_defrost(narration: Narration, at: int) -> bool:
    """Tell whether plain heaters are told of in a defrost: "Heaters pull fourteen amps in defrost"."""
    said = narration.lowers[at : at + 14]
    stop = next((k for k, w in enumerate(said) if w in {".", "?", "!", ";"}), len(said))
    return said[:1] in (["heaters"], ["elements"]) and "defrost" in said[1:stop]


def _resolve(narration: Narration, component: Component, at: int, last: dict[str, tuple[str, int]]) -> str:
    """Return what a generic word stands for: the last of its family, or what a word nearby hints at."""
    name, place = last.get(component.name, (component.default, -1))
    tokens = narration.tokens
    number = numbers_by_end(narration).get(at)
    counted = number is not None and number.form == "ordinal"
    letter = tokens[at + 1] if at + 1 < len(tokens) else None
    counted = counted or (letter is not None and letter.text in {"A", "B", "C", "D"})
    if place >= 0 and at - place <= 14 and not counted:
        return name
    if place < 0 and _head_is_up(narration, component, at):
        return "condenser fan motor"
    machine = _by_machine(narration, component, at) if place < 0 else None
    if place >= 0 and component.name == "heater" and _all_in_defrost(narration, at):
        return "defrost heater"
    for i in range(at - 1, max(-1, at - component.reach - 1), -1):
        if i == place:
            return name
        led = narration.lowers[max(0, i - 3) : i]
        if (tokens[i].lower == "frame" and "to" in led[-2:]) or " ".join(led).endswith(_PLATE_ON_THE):
            continue  # "the right one to frame, clear": ground; "nameplate on the condensing unit"
        if machine is not None and at - i > _NEAR_HINT:
            break  # a condenser that was spoken of long ago tells less than the machine does
        for hinted, words in component.hints.items():
            if tokens[i].lower in words:
                return hinted
    if place < 0:
        if machine is not None:
            return machine
        for i in range(at + 1, len(tokens)):
            for hinted, words in component.hints.items():
                if tokens[i].lower in words:
                    return hinted
    return name
