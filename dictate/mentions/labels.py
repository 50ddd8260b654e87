"""What was measured, as words: labels, components, electrical points, legs and windings in a narration.

    find_labels(narration)      labels of quantities.toml ("head pressure", "superheat", "box")
    find_components(narration)  components of components.toml, with which of several
    find_points(narration)      points of points.toml, legs and winding pairs

Each returns a list in the order of the words. A component's generic word ("fan", "cap") is resolved to the
last more exact one of its family that was named.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache

from dictate.mentions.narration import Narration, Token
from dictate.mentions.phrases import Phrases
from dictate.mentions.spoken_numbers import numbers_by_end, numbers_by_start
from dictate.mentions.unit_words import unit_phrases
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import table


@dataclass(frozen=True, slots=True)
class Label:
    """An entry of quantities.toml."""

    id: int
    quantity: str | None
    default: str | None
    point: str | None
    component: str | None
    reference: str | None
    derived: bool
    rated: bool
    weak: bool
    mode: str | None
    only: frozenset[str]
    gap: int
    hints: dict[str, frozenset[str]]

    def fits(self, quantity: str) -> bool:
        """Tell whether the words can go with a value of this quantity."""
        if self.quantity is not None:
            return quantity == self.quantity
        if self.only:
            return quantity in self.only
        return self.default is None or quantity == self.default


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


@dataclass(frozen=True, slots=True)
class LabelAt:
    """A label at the tokens [start, end)."""

    start: int
    end: int
    label: Label


@dataclass(frozen=True, slots=True)
class ComponentAt:
    """A component named at the tokens [start, end); `name` is resolved, `which` tells several alike apart."""

    start: int
    end: int
    name: str
    component: Component
    which: str | None = None


@dataclass(frozen=True, slots=True)
class PointAt:
    """A point named at the tokens [start, end).

    `kind`: "point", "leg" (L2), "legs" (L1-L2), "winding" (common-run), "ground" (run-ground). `ends` are the
    two legs or windings.
    """

    start: int
    end: int
    name: str
    kind: str
    only: frozenset[str]
    which: str | None = None


@cache
def labels() -> tuple[Label, ...]:
    """Return the labels of quantities.toml."""
    out = []
    for i, entry in enumerate(table("quantities")["label"]):
        out.append(
            Label(
                i,
                entry.get("quantity"),
                entry.get("default"),
                entry.get("point"),
                entry.get("component"),
                entry.get("reference"),
                entry.get("derived", False),
                entry.get("rated", False),
                entry.get("weak", False),
                entry.get("mode"),
                frozenset(entry.get("only", ())),
                entry.get("gap", 99),
                {point: frozenset(words) for point, words in entry.get("hints", {}).items()},
            )
        )
    return tuple(out)


@cache
def _label_phrases() -> Phrases:
    return Phrases({str(i): e["said"] for i, e in enumerate(table("quantities")["label"])})


def find_labels(narration: Narration) -> list[LabelAt]:
    """Return the labels of the narration, the longest of overlapping ones."""
    done: list[LabelAt] | None = narration.found.get("labels")
    if done is None:
        known = labels()
        done = [
            LabelAt(p.start, p.end, _pointed(narration, known[int(p.key)], p.start))
            for p in _label_phrases().find(narration)
        ]
        narration.found["labels"] = done
    return done


def _pointed(narration: Narration, label: Label, at: int) -> Label:
    """Settle a label that means one of two places by the last hint before it ("air on" a coil)."""
    if not label.hints:
        return label
    tokens = narration.tokens
    for i in range(at - 1, max(-1, at - 200), -1):
        for point, words in label.hints.items():
            if tokens[i].lower in words:
                return replace(label, point=point)
    return label


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
    for phrase in _component_phrases().find(narration):
        component = known[phrase.key]
        name = component.name
        if component.name == "pump" and _vacuum_talk(narration, phrase.start):
            continue
        led = narration.tokens[phrase.start - 1].lower if phrase.start else ""
        if component.name == "fan motor" and (
            led in word_list("labels_other_fans") or _blown_on(narration, phrase.start, phrase.end)
        ):
            continue
        which = _which(narration, phrase.start, phrase.end)
        if component.generic:
            generic = component.name
            counted = which is not None and which.isdigit()
            placed = _placed(narration, component, phrase.start, phrase.end)
            # "Fan one ... fan two ...": a row of numbered ones is of one kind
            same = numbered.get(generic) if counted else None
            name = placed or same or _resolve(narration, component, phrase.start, last)
            component = known[name]
            if counted:
                numbered[generic] = name
        for wider in known.values():
            if name in wider.family:
                last[wider.name] = (name, phrase.start)
        out.append(ComponentAt(phrase.start, phrase.end, name, component, which))
    narration.found["components"] = out
    return out


def _blown_on(narration: Narration, start: int, end: int) -> bool:
    """Tell whether a fan is the technician's own: "I put the fan on it", "set a fan blowing on the dome"."""
    before = [t.lower for t in narration.tokens[max(0, start - 3) : start]]
    after = [t.lower for t in narration.tokens[end : end + 2]]
    led = before[-1:] and before[-1] in {"a", "the", "my", "our"} and word_list("labels_puts") & set(before)
    return (
        bool(led) and bool(after) and after[0] in {"on", "blowing", "at", "over", "across", "against", "onto"}
    )


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
        for name, words in component.places.items():
            if low in words:
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
                place = text.find(f" {phrase} ")
                while place >= 0:
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


_NEAR_HINT = 25
"""Tokens within which a word tells which of a family is meant before the kind of machine does."""


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
    machine = _by_machine(narration, component, at) if place < 0 else None
    for i in range(at - 1, max(-1, at - component.reach - 1), -1):
        if i == place:
            return name
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


def _which(narration: Narration, start: int, end: int) -> str | None:
    """Return which of several is meant: "fan two", "the second fan", "left fan"."""
    tokens = narration.tokens
    numbers = numbers_by_start(narration)
    ends = numbers_by_end(narration)
    before = tokens[start - 1].lower if start else ""
    number = ends.get(start)
    if number is not None and number.form == "ordinal":
        return f"{number.value:g}"
    if number is not None and number.start and tokens[number.start - 1].lower in {"number", "#"}:
        return f"{number.value:g}"
    if before in table("points")["which"]["words"] and before not in {"old", "new"}:
        return before
    at = end
    if at < len(tokens) and tokens[at].lower in {"number", "#", "no"}:
        at += 1
    following = numbers.get(at)
    if (
        following is not None
        and following.form in {"plain", "counted"}
        and following.end - following.start == 1
        and following.value.is_integer()
        and 1 <= following.value <= 12
        and (at > end or following.form == "counted" or _names(narration, following.end, at))
    ):
        return f"{following.value:g}"
    return None


def _names(narration: Narration, end: int, start: int) -> bool:
    """Tell whether a small number after a component is its name and not a value: what follows decides."""
    tokens = narration.tokens
    if end >= len(tokens):
        return False
    nxt = tokens[end].lower
    # "fan two 1.1 amps", "compressor 2 is drawing", "fan 3 draws", "compressor 1, 31.5"
    numbers = numbers_by_start(narration)
    if end in numbers:
        return True
    if nxt in {".", ":"} and _heads_sentence(narration, start):
        return True
    if nxt == ",":
        if end + 1 in numbers:
            value = numbers[end + 1]
            # "Fan two, zero amps": the number with its unit is the value
            sure = value.places > 0 or value.value >= 20 or value.value == 0
            return sure or value.end in unit_phrases(narration)
        return not tokens[start].lower.isdigit()
    if end in unit_phrases(narration) and nxt not in {"and", "to"}:
        # "fan two amps 1.1" names the fan, "fan five amps" does not
        return unit_phrases(narration)[end].end in numbers
    word = not tokens[start].lower.isdigit()
    few = tokens[start].lower in {"1", "2", "3", "4", "5", "6"}
    if (
        few
        and nxt.isalpha()
        and nxt not in word_list("labels_names_2")
        and end not in unit_phrases(narration)
    ):
        return True
    if word and nxt.isalpha() and nxt not in word_list("labels_names_2"):
        return True
    return nxt in word_list("labels_names")


def _heads_sentence(narration: Narration, number: int) -> bool:
    """Tell whether a component and its number are all of a sentence: "Compressor two. L1 to L2 ..."."""
    tokens = narration.tokens
    if tokens[number].lower not in {*"123456", "one", "two", "three", "four", "five", "six"}:
        return False
    i = number - 1
    while i >= 0 and number - i <= 4 and tokens[i].lower not in {".", "?", "!"}:
        if tokens[i].segment != tokens[number].segment:
            break
        i -= 1
    opening = [t.lower for t in tokens[i + 1 : number]]
    return number - i <= 4 and not {"is", "was", "at", "amps", "draws", "pulls"} & set(opening)


@cache
def _point_phrases() -> Phrases:
    return Phrases({str(i): e["said"] for i, e in enumerate(table("points")["point"])})


_ELECTRIC = frozenset({"voltage", "current", "resistance"})


def find_points(narration: Narration) -> list[PointAt]:
    """Return the electrical points of the narration: named ones, legs and winding pairs."""
    done: list[PointAt] | None = narration.found.get("points")
    if done is not None:
        return done
    entries = table("points")["point"]
    out: list[PointAt] = []
    taken: set[int] = set()
    i = 0
    n = len(narration.tokens)
    while i < n:
        found = _winding(narration, i) or _legs(narration, i)
        if found is not None:
            out.append(found)
            if found.kind == "legs":
                narration.found.setdefault("pair_rows", []).append(found.end)
            taken.update(range(found.start, found.end))
            i = found.end
        else:
            i += 1
    for phrase in _point_phrases().find(narration):
        loaded = phrase.start and narration.tokens[phrase.start - 1].lower in {
            "no",
            "under",
            "full",
            "rated",
            "locked",
        }
        if taken.isdisjoint(range(phrase.start, phrase.end)) and not loaded:
            entry = entries[int(phrase.key)]
            out.append(PointAt(phrase.start, phrase.end, entry["name"], "point", frozenset(entry["only"])))
    out.sort(key=lambda p: p.start)
    narration.found["points"] = out
    return out


@cache
def _winding_words() -> dict[str, str]:
    data = table("points")["winding"]
    return {w: name for name in ("common", "run", "start", "ground") for w in data[name]}


_PAIRS = {
    frozenset({"common", "run"}): "common-run",
    frozenset({"common", "start"}): "common-start",
    frozenset({"run", "start"}): "run-start",
    frozenset({"run", "ground"}): "run-ground",
    frozenset({"common", "ground"}): "common-ground",
    frozenset({"start", "ground"}): "start-ground",
}
_ARTICLES = frozenset({"the", "a"})


def _winding(narration: Narration, i: int) -> PointAt | None:
    """Read "common to run", "C to S", "run-start", "start to the shell" at token i."""
    tokens = narration.tokens
    words = _winding_words()
    first = words.get(tokens[i].lower)
    if first is None:
        compact = {
            "cr": "common-run",
            "cs": "common-start",
            "rs": "run-start",
            "sr": "run-start",
            "rc": "common-run",
            "sc": "common-start",
        }
        if tokens[i].text.isupper() and tokens[i].lower in compact and _meter_talk(narration, i):
            return PointAt(i, i + 1, compact[tokens[i].lower], "winding", frozenset({"resistance"}))
        return _colours(narration, i)
    j = i + 1
    joined = False
    while j < len(tokens) and tokens[j].lower in word_list("labels_winding"):
        joined = joined or tokens[j].lower in {"to", "-", "/", "2", "and"}
        j += 1
    while j < len(tokens) and tokens[j].lower in _ARTICLES and joined:
        j += 1
    second = words.get(tokens[j].lower) if j < len(tokens) else None
    if second is None or second == first:
        return None
    single = (
        len(tokens[i].lower) == 1 or len(tokens[j].lower) == 1 or tokens[i].lower in {"see", "our", "main"}
    )
    hyphen = tokens[i].text.endswith("-")
    if single and not (joined or hyphen):
        # "C R" needs capitals to be terminals
        if not (tokens[i].text.isupper() and tokens[j].text.isupper() and len(tokens[j].lower) == 1):
            return None
    elif not joined and not hyphen and (first == "ground" or second == "ground"):
        return None
    if tokens[i].lower in {"see", "our"} and tokens[j].lower not in {"s", "r", "our", "c", "see", "ground"}:
        return None
    if first == "run" and tokens[i].lower in {"run", "running"} and second == "ground" and not joined:
        return None
    pair = _PAIRS.get(frozenset({first, second}))
    if pair is None or (single and _thermostat_talk(narration, i)):
        return None
    end = j + 1
    if end < len(tokens) and tokens[end].lower in {"capacitor", "cap", "caps", "capacitors", "relay"}:
        return None
    kind = "ground" if "ground" in pair else "winding"
    return PointAt(i, end, pair, kind, frozenset({"resistance", "voltage"}))


def _thermostat_talk(narration: Narration, i: int) -> bool:
    """Tell whether R and C are terminals of a thermostat: "R to C 24, Y to C zero"."""
    near = narration.tokens[max(0, i - 12) : i + 12]
    if {t.lower for t in near} & {"ohm", "ohms", "winding", "windings", "ohmed", "start", "s"}:
        return False
    return any(t.text in {"Y", "G", "W"} for t in near) or "thermostat" in {t.lower for t in near}


def _colours(narration: Narration, i: int) -> PointAt | None:
    """Read two wires told by colour at token i: "black to brown", "brown purple" in a row of such pairs."""
    tokens = narration.tokens
    colours = table("points")["winding"]["colours"]
    if tokens[i].lower not in colours or i + 1 >= len(tokens):
        return None
    j = i + 1
    joined = tokens[j].lower in {"to", "and", "-"}
    if joined:
        j += 2 if j + 1 < len(tokens) and tokens[j + 1].lower == "the" else 1
    row = any(t.lower in colours for t in tokens[max(0, i - 12) : i])
    if (
        j >= len(tokens)
        or tokens[j].lower not in colours
        or not (joined or row or tokens[i].text.endswith("-"))
    ):
        return None
    if tokens[j].lower == tokens[i].lower or not _meter_talk(narration, i):
        return None
    names = sorted((tokens[i].lower, tokens[j].lower))
    return PointAt(i, j + 1, "-".join(names), "winding", frozenset({"resistance", "voltage"}))


def _meter_talk(narration: Narration, i: int) -> bool:
    near = {t.lower for t in narration.tokens[max(0, i - 15) : i + 15]}
    return bool(near & word_list("labels_meter_talk"))


@cache
def _leg_firsts() -> frozenset[str]:
    """Return the words that a leg's name begins with: most words of a narration begin none."""
    data = table("points")["leg"]
    named = (data["ends"], data["before"], data["letters"], data["numbers"])
    return frozenset(w for words in named for w in words) | {"l", "t", "first", "second", "third"}


def _leg(narration: Narration, i: int, paired: bool) -> tuple[int, int, str] | None:
    """Read one leg's name at token i: (number 1 to 3, end, letter family)."""
    data = table("points")["leg"]
    tokens = narration.tokens
    if i >= len(tokens):
        return None
    low = tokens[i].lower
    if low not in _leg_firsts():
        return None
    if low in data["ends"] and (
        low[-1].isdigit() or (tokens[i].text.isupper() and _three_phase_talk(narration, i))
    ):
        return data["ends"][low], i + 1, low[0]
    nxt = tokens[i + 1].lower if i + 1 < len(tokens) else ""
    if low in {"l", "t"} and nxt in data["numbers"] and nxt not in {"first", "second", "third"}:
        return data["numbers"][nxt], i + 2, low
    if low in data["before"]:
        j = i + 1
        if nxt in {"number", "#"}:
            j += 1
            nxt = tokens[j].lower if j < len(tokens) else ""
        if nxt in data["numbers"]:
            number = numbers_by_start(narration).get(j)
            if number is not None and number.end > j + 1:
                return None  # "line two oh eight" is the line side and 208
            return data["numbers"][nxt], j + 1, "l"
        if (
            nxt in data["letters"]
            and low != "line"
            and (nxt != "a" or tokens[j].text == "A" or low in {"phase", "leg", "pole"})
        ):
            return data["letters"][nxt], j + 1, "a"
        return None
    if nxt in {"leg", "phase", "pole"} and (low in data["letters"] or low in {"first", "second", "third"}):
        if low == "a" and tokens[i].text != "A":
            return None
        return data["letters"].get(low) or data["numbers"][low], i + 2, "a" if low in data["letters"] else "l"
    if paired and (
        low in data["letters"] or (low in data["numbers"] and low not in {"first", "second", "third"})
    ):
        return data["letters"].get(low) or data["numbers"][low], i + 1, "a" if low in data["letters"] else "l"
    return None


def _three_phase_talk(narration: Narration, i: int) -> bool:
    tokens = narration.tokens
    near = {t.lower for t in tokens[max(0, i - 4) : i + 5]} - {tokens[i].lower}
    return bool(near & {"u", "v", "w", "u1", "v1", "w1"})


def _legs(narration: Narration, i: int) -> PointAt | None:
    """Read "L1 to L2", "leg two", "phase A to B", "one to two" (in a row of such pairs) at token i."""
    tokens = narration.tokens
    joins = table("points")["leg"]["joins"]
    lettered = _lettered_phases(narration, i)
    if lettered is not None:
        return lettered
    first = _leg(narration, i, False)
    bare = False
    if first is None:
        first = _leg(narration, i, True)
        bare = first is not None
        if first is None:
            return None
    number, end, family = first
    j = end
    joined = j < len(tokens) and (tokens[j].lower in joins or tokens[end - 1].text.endswith("-"))
    if joined and tokens[j].lower in joins and not tokens[end - 1].text.endswith("-"):
        # "L1 to L2": the join itself may be written as the digit 2
        j += 1
    second = _leg(narration, j, True) if joined else None
    if second is None and not bare and j < len(tokens):
        direct = _leg(narration, end, False)
        if (
            direct is not None
            and direct[2] == family
            and tokens[i].lower not in table("points")["leg"]["before"]
        ):
            second, j = direct, end
    if second is None and bare and family == "a" and tokens[i].text.isupper():
        nxt = tokens[i + 1] if i + 1 < len(tokens) else None
        if (
            nxt is not None
            and nxt.text.isupper()
            and nxt.lower in {"a", "b", "c"}
            and nxt.lower != tokens[i].lower
        ):
            return _pair(number, ord(nxt.lower) - 96, i, i + 2)
    if second is not None and second[0] != number:
        if bare and not _is_pair_row(narration, i, second[1], family):
            return None
        behind = tokens[second[1]].lower if second[1] < len(tokens) else "."
        if tokens[second[1] - 1].lower == "a" and behind in table("numbers")["fraction"]:
            return None  # "the first one thirty-two and a half"
        if (
            tokens[end].lower in {"and", "through"}
            and not bare
            and family == "l"
            and tokens[i].lower in {"leg", "legs", "phase"}
        ):
            pass
        return _pair(number, second[0], i, second[1])
    if not bare and joined and j < len(tokens) and tokens[j].lower in table("points")["winding"]["ground"]:
        return PointAt(i, j + 1, f"L{number}-ground", "ground", frozenset({"resistance", "voltage"}))
    if not bare and joined and j < len(tokens) and tokens[j].lower in {"neutral", "n"}:
        return PointAt(i, j + 1, f"L{number}-N", "legs", _ELECTRIC)
    if bare:
        return _letter_leg(narration, i, number)
    before = tokens[i].lower
    if before in {"pole", "poles"} or (end < len(tokens) and tokens[end - 1].lower == "pole"):
        said = tokens[end - 1].text if before.startswith("pole") else tokens[i].text
        return PointAt(i, end, f"L{number}", "leg", _ELECTRIC, f"pole {said}")
    if before in {"terminal", "winding"}:
        return None
    which = f"leg {tokens[end - 1].text.upper()}" if family == "a" else None
    return PointAt(i, end, f"L{number}", "leg", _ELECTRIC, which)


def _lettered_phases(narration: Narration, i: int) -> PointAt | None:
    """Read the phases R, Y and B as in "R to Y 408, Y to B 412"; a thermostat has no B."""
    tokens = narration.tokens
    names = {"R": 1, "Y": 2, "B": 3}
    first = names.get(tokens[i].text.rstrip("-/"))
    if first is None or i + 1 >= len(tokens):
        return None
    j = i + 1 + (tokens[i + 1].lower in {"to", "-", "/", "and"})
    if j == i + 1 and not tokens[i].text.endswith("-"):
        return None
    second = names.get(tokens[j].text) if j < len(tokens) else None
    if second is None or second == first:
        return None
    near = {t.text.rstrip("-/") for t in tokens[max(0, i - 20) : i + 20]}
    if not set(names) <= near or near & {"G", "W", "C", "A"}:
        return None
    return _pair(first, second, i, j + 1)


def _pair(a: int, b: int, start: int, end: int) -> PointAt:
    low, high = sorted((a, b))
    return PointAt(start, end, f"L{low}-L{high}", "legs", _ELECTRIC)


def _is_pair_row(narration: Narration, start: int, end: int, family: str) -> bool:
    """Tell whether "one to two" is a pair of terminals: a value follows, and the talk is of legs."""
    tokens = narration.tokens
    near = {t.lower for t in tokens[max(0, start - 25) : end + 12]}
    talk = near & word_list("labels_is_pair_row")
    row = narration.found.setdefault("pair_rows", [])
    if any(0 <= start - e <= 10 for e in row):
        talk = talk | {"row"}
    if not talk:
        said = " ".join(t.lower for t in tokens[max(0, start - 14) : end + 16])
        if sum(f" {p} " in f" {said} " for p in word_list("labels_pair_rows")) >= 2:
            talk = talk | {"row"}
    value = any(i in numbers_by_start(narration) for i in range(end, end + 3))
    # "481 A to C", "202 on A to C": the value stands in front
    value = value or any(i in numbers_by_end(narration) for i in range(max(0, start - 2), start + 1))
    value = value or any(0 <= start - e <= 2 for e in row)
    letters = (
        family != "a"
        or "row" in talk
        or (tokens[start].text.isupper() and tokens[end - 1].text.isupper())
        or bool(near & {"phase", "leg", "legs", "phases"})
    )
    return (
        bool(talk)
        and value
        and letters
        and (
            start == 0
            or tokens[start - 1].lower not in {"from", "of", "about"}
            or _capitals(tokens, start, end)
        )
    )


def _capitals(tokens: Sequence[Token], start: int, end: int) -> bool:
    """Tell whether a pair is two capital letters: "471 volts from A to B"."""
    return tokens[start].text in {"A", "B", "C"} and tokens[end - 1].text in {"A", "B", "C"}


def _letter_leg(narration: Narration, i: int, number: int) -> PointAt | None:
    """Read the bare letters of a row: "A twelve, B fourteen and a half, C nineteen"."""
    tokens = narration.tokens
    if tokens[i].lower not in {"a", "b", "c"} or not tokens[i].text.isupper():
        return None
    starts = numbers_by_start(narration)
    if _letter_behind(narration, i):
        return PointAt(i, i + 1, f"L{number}", "leg", _ELECTRIC, f"leg {tokens[i].text}")
    if i + 1 not in starts and not (i + 2 in starts and tokens[i + 1].lower in {"is", "'s", "at", "was"}):
        return None
    near = [t.text for t in tokens[max(0, i - 14) : i + 14] if t.text in {"A", "B", "C"}]
    others = {t for t in near if t != tokens[i].text}
    before = tokens[i - 1].lower if i else ","
    if not others or before not in word_list("labels_letter_leg"):
        return None
    return PointAt(i, i + 1, f"L{number}", "leg", _ELECTRIC, f"leg {tokens[i].text}")


def _letter_behind(narration: Narration, i: int) -> bool:
    """Tell whether a letter behind a value names its leg: "31.5 on A, 26 on B, 30 on C"."""
    tokens = narration.tokens

    def led(k: int) -> bool:
        if k < 2 or tokens[k].text not in {"A", "B", "C"} or tokens[k - 1].lower not in {"on", "across"}:
            return False
        after = tokens[k + 1].lower if k + 1 < len(tokens) else "."
        before = tokens[k - 2].lower
        number = numbers_by_end(narration).get(k - 1) is not None or before in {
            "amps",
            "volts",
            "amp",
            "volt",
        }
        return number and after in {".", ",", "and", ";", "then", "but", "or"}

    if not led(i):
        return False
    others = {tokens[k].text for k in range(max(0, i - 16), min(len(tokens), i + 17)) if led(k)}
    talk = {t.lower for t in tokens[max(0, i - 60) : i + 20]}
    return len(others) == 3 or (len(others) == 2 and bool(talk & word_list("labels_three_phase")))
