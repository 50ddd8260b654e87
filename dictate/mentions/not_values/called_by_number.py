"""Numbers by which things are called: "case nine", "room 12", and later "11 is -21".

    called_by_number(narration) -> {first token of the number: the noun}

Many of these things have a value of their own, so that "case 36" may be a temperature and "compressor 12"
amps. So a number is a name only where the words around one of its mentions show it: a value follows it
("case nine is minus seven"), something lies in it ("in room 12"), it does what no value does ("case 14
needs a clock"), it is counted ("number 3"), it is in a row ("cases 21 through 26"), or the same noun is
said with the same number again. Once shown, every mention of that noun with that number is a name, and so
is the bare number where it is spoken of as a thing.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from dictate.mentions.labels import find_components
from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import Number, find_numbers, numbers_by_end, numbers_by_start
from dictate.mentions.spoken_numbers.atoms import number_set
from dictate.mentions.unit_words import unit_phrases, unit_words
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import table

_STOPS = frozenset((".", ",", ";", "?", "!"))
_CLAUSE = _STOPS | {"and", "but", "so"}
_SMALL, _LARGE = 26, 99
"""The cases, rooms and trucks of a site are counted up to here as a rule, and the most that is believed."""


_OWN = frozenset(("box", "product", "display", "suction", "head", "air", "return", "supply", "superheat"))
"""What a thing called by a number has a value of."""
_PRESSURES = frozenset(
    ("suction", "bar", "psi", "low", "superheat", "subcooling", "pressures", "kpa", "subcool")
)
"""What shows that a head is a pressure and no part of a machine."""
_LEVEL_SAID = frozenset(
    ("is", "was", "s", "of", "now", "and", "or", "to", "after", "before", "in", "on", "at")
)


@dataclass(frozen=True, slots=True)
class _Mention:
    """A noun with a whole number right behind it; `at` is the token of the noun's last word."""

    noun: str
    at: int
    number: Number
    plural: bool
    counted: bool
    """True for "freezer number 3"."""

    @property
    def value(self) -> int:
        return int(self.number.value)


@cache
def _words(group: str, name: str) -> frozenset[str]:
    return frozenset(table("called_by_number")[group][name])


@cache
def _nouns() -> dict[str, tuple[str, str]]:
    """Return every form of a noun with its singular and its kind."""
    out = {}
    for kind in ("warm", "parts", "never"):
        for noun in table("called_by_number")["things"][kind]:
            last = noun.split()[-1]
            out[last] = (last, kind)
            out[last + ("es" if last.endswith(("s", "x", "ch", "sh")) else "s")] = (last, kind)
    return out


def called_by_number(narration: Narration) -> dict[int, str]:
    """Return the numbers that name a thing, by their first token, with the noun; once per narration."""
    done: dict[int, str] | None = narration.found.get("called by number")
    if done is None:
        done = narration.found["called by number"] = _find(narration)
    return done


def _find(narration: Narration) -> dict[int, str]:
    if _nouns().keys().isdisjoint(narration.lowers) and "walk" not in narration.lowers:
        return {}
    mentions = _mentions(narration)
    if not mentions:
        return {}
    names: dict[str, set[int]] = {}
    for m in mentions:
        if (
            m.counted
            or _shown(narration, m)
            or _said_again(narration, m, mentions)
            or _alike(narration, m, mentions)
            or _counted_on(narration, m, mentions)
        ):
            names.setdefault(m.noun, set()).add(m.value)
    out = _rows(narration, mentions, names)
    for _ in range(2):
        for m in mentions:
            if m.value not in names.get(m.noun, ()) and _beside_names(narration, m, names, out):
                names.setdefault(m.noun, set()).add(m.value)
            if m.value in names.get(m.noun, ()):
                out[m.number.start] = m.noun
    known = {value: noun for noun, values in names.items() for value in values}
    if known:
        out |= _alone(narration, known, out)
    return out


def _counted(narration: Narration) -> set[int]:
    """Return the numbers that were said with "number": "number 2 reads 26.1" makes "heater 2" a name."""
    if "number" not in narration.lowers:
        return set()
    starts = numbers_by_start(narration)
    said = [starts[i + 1] for i, w in enumerate(narration.lowers) if w == "number" and i + 1 in starts]
    return {int(n.value) for n in said if n.value.is_integer() and 1 <= n.value <= 12 and not n.places}


def _whole(n: Number) -> bool:
    """Tell whether a number has the form of a name."""
    plain = n.form in {"plain", "counted", "pair", "digits"} and n.value.is_integer()
    return plain and not n.negative and not n.places and not n.pronoun and 1 <= n.value <= 9999


def _mentions(narration: Narration) -> list[_Mention]:
    words, starts = narration.lowers, numbers_by_start(narration)
    out = []
    for i, word in enumerate(words):
        noun = _nouns().get(word)
        if word == "numbers":
            noun = ("number", "never")
        if word in {"in", "ins"} and words[i - 1 : i] == ["walk"]:
            noun = ("walk-in", "warm")
        if noun is None or (word == "space" and words[i - 1 : i] in (["load"], ["cargo"], ["storage"])):
            continue
        at = i + 1
        counted = at < len(words) and words[at] in {"number", "#", "no"}
        number = starts.get(at + counted)
        if number is None or not _whole(number):
            continue
        if _unit_at(narration, number.end) and not counted:
            # "pump 3 amps 6.2": the unit belongs to what follows
            after = unit_phrases(narration)[number.end].end
            after += words[after : after + 1] in (["were"], ["are"], ["was"], ["is"], ["'s"])
            if noun[1] != "parts" or after not in starts or number.value > 12:
                continue
            if _decimals(narration, number.end, starts[after]):
                continue  # "the compressor four amps one": 4.1 A
        if words[number.end : number.end + 1] == ["percent"] or words[i - 1 : i] in (
            ["per"],
            ["each"],
            ["every"],
        ):
            continue
        placed = words[i - 1 : i] != [] and words[i - 1] in number_set("designator", "places")
        if placed and number.value > _LARGE and not counted:
            continue  # "second door four hundred and sixty": it has its name
        out.append(_Mention(noun[0], i, number, word not in {noun[0], "in"}, counted))
    return out


def _decimals(narration: Narration, at: int, behind: Number) -> bool:
    """Tell whether the number behind a unit at a token may be its decimals: a digit that ends there."""
    unit = unit_words()[unit_phrases(narration)[at].key]
    words = narration.lowers
    ends = behind.end >= len(words) or words[behind.end] in word_list("unit_inside_ends")
    return unit.decimals_behind and ends and behind.value < 10 and behind.value.is_integer()


def _unit_at(narration: Narration, end: int) -> bool:
    """Tell whether a unit of something measured stands behind a number: "5 head" and "3 phase" have none."""
    unit = unit_phrases(narration).get(end)
    return unit is not None and unit_words()[unit.key].kind == "reading"


def _kind(noun: str) -> str:
    return "never" if noun == "number" else _nouns()[noun][1]


def _shown(narration: Narration, m: _Mention) -> bool:
    """Tell whether the words around a mention show that the number is a name."""
    kind = _kind(m.noun)
    if kind == "never":
        return True
    if m.noun == "head" and _PRESSURES & set(narration.lowers[max(0, m.at - 12) : m.number.end + 8]):
        return False  # "suction 0.7 bar, head 11, 2.1 amps"
    if m.plural or m.value > _LARGE:
        # Nothing is as warm as "trailer 4471".
        return kind == "warm" and not m.plural and m.value > 150 and m.number.written
    words, end = narration.lowers, m.number.end
    behind = [*words[end : end + 3], ".", ".", "."]
    place = " ".join(behind[:2])
    warm = kind == "warm"
    lead = words[m.at - 1] if m.at else "."
    if lead in _words("shown_by", "inside") and (
        m.value <= _SMALL or (m.noun != "box" and behind[0] not in _STOPS)
    ):
        return True
    value = _value_behind(narration, end)
    if value is not None and behind[0] in _words("shown_by", "reads"):
        near = value.negative or narration.lowers[value.start - 1] in {"minus", "plus"}
        if behind[0] not in {"at", "had", "was", "has"} or near or m.value <= 12:
            return m.value <= 60 and (warm or m.value <= 12)
    numbers = numbers_by_start(narration)
    if _unit_at(narration, end):
        return True
    if m.noun == "level":
        return m.value <= 9 and behind[0].isalpha() and behind[0] not in _LEVEL_SAID
    if (
        warm
        and m.value <= 12
        and m.noun != "box"
        and behind[0] == ","
        and behind[1] in _OWN
        and end + 2 in numbers
    ):
        return True  # "keg cooler 2, box 36"
    if behind[0] == "'s" and value is None and (behind[1] in _OWN or behind[1] in _nouns()):
        return m.value <= _SMALL
    if end in numbers and _sure_value(narration, numbers[end]):
        return True
    if behind[0] == "on" and end + 1 in numbers and _sure_value(narration, numbers[end + 1]):
        return True  # "comp 1 on 24.6 amps"
    if place in _words("shown_by", "moves") and m.value <= 60:
        k = end + 2 + (behind[2] in {"to", "from", "by", "at"})
        return k in numbers and behind[0] != "down"
    if not warm and m.value <= 12 and place in _words("shown_by", "ground"):
        return True
    if (
        lead in _words("shown_by", "at")
        and lead != "and"
        and warm
        and value is not None
        and m.value <= _SMALL
    ):
        return True
    if behind[0] in _words("shown_by", "does") and m.value <= (60 if warm else 12):
        return True
    if behind[0] in {"is", "was", "'s", "are"}:
        how = behind[1] in _words("shown_by", "how")
        if how and m.value <= _SMALL:
            return True
        if not warm and m.value <= 8 and behind[1] in _words("shown_by", "sick"):
            return True
    if m.value <= _SMALL and behind[0] not in _STOPS and end in {c.start for c in find_components(narration)}:
        return True
    if lead in {"is", "was", "'s"} and behind[0] in _STOPS and m.value <= 20 and m.noun != "box":
        return words[m.at - 2 : m.at - 1] != ["it"] or not warm
    if behind[0] == "," and end + 1 in numbers:
        unit = unit_phrases(narration).get(numbers[end + 1].end)
        if unit is not None and unit.key not in {"degree", "celsius", "fahrenheit"} and m.value <= 60:
            return True
    return _lies(narration, m, behind)


def _lies(narration: Narration, m: _Mention, behind: list[str]) -> bool:
    """Tell whether it is said where the thing lies, or the narration opens so: "Cold room 4 at the shop"."""
    if m.value > _SMALL:
        return False
    place = " ".join(behind[:2])
    if behind[0] in {"on", "in", "at"} and _nouns().get(behind[1], ("", ""))[1] == "never":
        return True  # "reefer 12 on dock 5"
    lies = _words("shown_by", "lies")
    if place in lies or behind[0] in lies:
        return True
    opens = m.at <= 4 and not any(w in {".", "?", "!"} for w in narration.lowers[: m.at])
    return opens and place in _words("shown_by", "opening")


def _value_behind(narration: Narration, end: int) -> Number | None:
    """Return the number that stands behind a name with at most some words of reading in between."""
    words, starts = narration.lowers, numbers_by_start(narration)
    k = end
    while k < len(words) and k - end < 4 and k not in starts:
        between = _words("shown_by", "reads" if k == end else "adverbs")
        if words[k] not in between and words[k] not in {"minus", "plus", "negative", "point"}:
            return None
        k += 1
    number = starts.get(k)
    if number is None or number.form in {"clock", "ordinal"}:
        return None
    if number.form == "fraction" and abs(number.value) < 1:
        return None  # "chamber seven at a quarter of an hour"
    unit = unit_phrases(narration).get(number.end)
    timed = unit is not None and unit.key in {"minute", "second", "hour", "day", "percent", "%"}
    return None if timed or words[number.end : number.end + 1] in _TIMED else number


_TIMED = [[w] for w in ("percent", "o'clock", "pm", "am", "p", "oclock")]
"""What makes the number behind "case 36 at" no value of the case."""


def _sure_value(narration: Narration, n: Number) -> bool:
    """Tell whether a number right behind a name is a value by its form: decimals, a sign, a unit."""
    return n.negative or n.places > 0 or _unit_at(narration, n.end)


def _said_again(narration: Narration, m: _Mention, mentions: list[_Mention]) -> bool:
    """Tell whether the noun is said with this number again, where a value would hardly come again."""
    same = [x for x in mentions if x.noun == m.noun and x.value == m.value and not x.plural]
    if len(same) < 2 or m.plural:
        return False
    if _kind(m.noun) == "parts":
        return m.value <= 40
    if m.value <= 12 and any(_heads(narration, x) for x in same):
        return True
    if m.noun in _words("things", "common"):
        odd = 5 < m.value <= 14 or 40 <= m.value <= 60 or m.value > 100
        goes_on = any(
            narration.lowers[x.number.end : x.number.end + 1] not in [[w] for w in _STOPS] for x in same
        )
        return odd and goes_on
    return True


def _alike(narration: Narration, m: _Mention, mentions: list[_Mention]) -> bool:
    """Tell whether the same is said of two of a kind: "case six superheat 9, case seven superheat 4"."""
    words, starts, end = narration.lowers, numbers_by_start(narration), m.number.end
    if m.plural or m.value > _SMALL or end + 1 not in starts or words[end] in _STOPS:
        return False
    return any(
        x.noun == m.noun
        and x.value != m.value
        and words[x.number.end] == words[end]
        and x.number.end + 1 in starts
        for x in mentions
        if x.number.end < len(words)
    )


def _counted_on(narration: Narration, m: _Mention, mentions: list[_Mention]) -> bool:
    """Tell whether the noun comes again at once with the next number: "fan 1, fan 2 and fan 3 all at"."""
    if m.plural or m.value > 12:
        return False
    words = narration.lowers
    for x in mentions:
        if x.noun != m.noun or x.plural or abs(x.value - m.value) != 1:
            continue
        first, second = sorted((m, x), key=lambda y: y.at)
        gap = words[first.number.end : second.at]
        if second.value > first.value and 1 <= len(gap) <= 2 and set(gap) <= {",", "and", "&"}:
            return True
    return False


def _heads(narration: Narration, m: _Mention) -> bool:
    """Tell whether a noun and its number open a sentence as a heading does: "Case 5.", "Room 12, ..."."""
    words = narration.lowers
    opens = m.at == 0 or words[m.at - 1] in {".", "?", "!", "and", "then"}
    return opens and words[m.number.end : m.number.end + 1] in (["."], [","], [":"])


def _rows(narration: Narration, mentions: list[_Mention], names: dict[str, set[int]]) -> dict[int, str]:
    """Read "cases 21 through 26", "rooms 11 and 12", "fans 1, 2 and 4": a plural and its numbers."""
    words, starts = narration.lowers, numbers_by_start(narration)
    out: dict[int, str] = {}
    for m in mentions:
        if not m.plural and words[m.number.end : m.number.end + 1] not in (["through"], ["thru"]):
            continue
        row = [m.number]
        links = []
        while (
            row[-1].end + 1 in starts
            and words[row[-1].end] in {"and", "to", "through", "thru", ",", "-", "or", "&"}
            and _whole(starts[row[-1].end + 1])
            and starts[row[-1].end + 1].value > row[-1].value
        ):
            links.append(words[row[-1].end])
            row.append(starts[row[-1].end + 1])
        follows = starts.get(row[-1].end)
        if follows is not None and not _sure_value(narration, follows):
            continue
        if len(row) < 2 or _unit_at(narration, row[-1].end):
            continue
        low, high = int(row[0].value), int(row[-1].value)
        ranged = links[-1] in {"through", "thru"} or (links == ["to"] and high <= 12)
        limit = _SMALL if _kind(m.noun) == "warm" else 12
        close = (
            high - low <= 2 * len(row) and high <= limit and (_kind(m.noun) != "warm" or m.noun not in _TWICE)
        )
        if not (ranged or close or _kind(m.noun) == "never"):
            continue
        for n in row:
            out[n.start] = m.noun
        values = range(low, high + 1) if ranged and high - low < 60 else [int(n.value) for n in row]
        names.setdefault(m.noun, set()).update(values)
    return out


_TWICE = frozenset(("box", "cooler", "freezer", "walk-in"))
"""Nouns whose plural with two numbers may be two temperatures."""


def _beside_names(narration: Narration, m: _Mention, names: dict[str, set[int]], out: dict[int, str]) -> bool:
    """Tell whether a mention is one of a kind that is called by numbers here: its neighbours are names."""
    ends = numbers_by_end(narration)
    if narration.lowers[m.at - 1 : m.at] == [","] and not m.plural and m.value <= _SMALL:
        led = ends.get(m.at - 1)
        if (
            led is not None
            and out.get(led.start)
            and narration.lowers[led.start - 2] in {"on", "in", "at", "'s", "is"}
        ):
            return True  # "it's on breaker fourteen, room twelve"
    same = names.get(m.noun)
    return same is not None and not m.plural and any(abs(m.value - v) <= 6 for v in same)


def _alone(narration: Narration, known: dict[int, str], out: dict[int, str]) -> dict[int, str]:
    """Return the bare numbers that stand for a thing known by its number: "the coil in 12", "11 is -21"."""
    words = narration.lowers
    found: dict[int, str] = {}
    first = min(out, default=0)
    for n in find_numbers(narration):
        if n.start in out or n.start < first or not _whole(n) or int(n.value) not in known:
            continue
        if n.form == "counted" or _unit_at(narration, n.end):
            continue
        noun = known[int(n.value)]
        if _kind(noun) == "never":
            continue
        before = words[n.start - 1] if n.start else "."
        after = words[n.end] if n.end < len(words) else "."
        if before in _words("alone", "leads") and _kind(noun) == "warm":
            found[n.start] = noun
        elif before in _CLAUSE and after in _words("alone", "subject"):
            value = _value_behind(narration, n.end)
            listed = (
                before not in {".", "?", "!", ";"} and numbers_by_end(narration).get(n.start - 1) is not None
            )
            if not listed and (value is not None or after not in {"at", "was", "had"}):
                found[n.start] = noun
        elif (
            before in {"on", "at", "to", "of"}
            and _value_behind(narration, n.end) is not None
            and n.value <= _SMALL
        ):
            found[n.start] = noun
        elif before == "on" and after == "," and _kind(noun) == "parts" and n.value <= _SMALL:
            first_value = numbers_by_start(narration).get(n.end + 1)
            led = not {n.start - 1, n.start - 2}.isdisjoint(numbers_by_end(narration))
            if (
                first_value is not None
                and not led
                and (_sure_value(narration, first_value) or first_value.form == "fraction")
            ):
                found[n.start] = noun  # "windings on two, eight tenths of an ohm"
    return found


__all__ = ["called_by_number"]
