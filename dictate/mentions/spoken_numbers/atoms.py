"""The words and digits of which numbers are made, and the runs that they stand in."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cache

from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers.number import Other
from dictate.vocabulary.load import table

_WRITTEN = re.compile(r"\d{1,3}(?:,\d{3})+(?:\.\d+)?|\.\d+|\d+(?:\.\d+)?")
_DECIMAL_COMMA = re.compile(r"\d{1,3},\d{1,2}")
_FRACTION = re.compile(r"(\d+)/(\d+)")
_VULGAR = {"½": 1 / 2, "¼": 1 / 4, "¾": 3 / 4, "⅛": 1 / 8, "⅜": 3 / 8, "⅝": 5 / 8, "⅞": 7 / 8}
_DENOMINATORS = frozenset({2, 3, 4, 5, 8, 10, 16, 32, 64})


@dataclass(frozen=True, slots=True)
class Atom:
    """One word or written number, by its kind."""

    kind: str  # D digit, Z zero, T teen, Y tens, H hundred, K thousand, M million, P point, A a/an, & and,
    #            F fraction word, N written number, S written fraction
    value: float
    token: int = field(compare=False)  # what a run of words means is the same wherever it stands
    word: str


@dataclass(frozen=True, slots=True)
class Part:
    """A candidate number over atoms [i, j) with its cost beyond 1."""

    j: int
    value: float
    form: str = "plain"
    cost: float = 0.0
    places: int = 0
    text: str = ""
    others: tuple[Other, ...] = ()


@cache
def number_words() -> dict[str, tuple[str, float]]:
    """Return word -> (atom kind, value)."""
    data = table("numbers")
    out: dict[str, tuple[str, float]] = {}
    for kind, name in (("D", "digit"), ("T", "teen"), ("Y", "ten")):
        out |= {w: (kind, float(v)) for w, v in data[name].items()}
    scale = {100: "H", 1000: "K", 1000000: "M"}
    out |= {w: (scale[v], float(v)) for w, v in data["scale"].items()}
    out |= dict.fromkeys(data["slang"]["hundred"], ("B", 100.0))
    out |= {w: ("F", float(v)) for w, v in data["fraction"].items()}
    out |= dict.fromkeys((*data["zero"]["said"], *data["zero"]["within"]), ("Z", 0.0))
    out |= dict.fromkeys(data["point"]["said"], ("P", 0.0))
    out |= {"a": ("A", 1.0), "an": ("A", 1.0), "and": ("&", 0.0)}
    return out


@cache
def number_set(section: str, key: str) -> frozenset[str]:
    """Return a list of words of one section of numbers.toml."""
    return frozenset(table("numbers")[section][key])


def written_value(text: str) -> float | None:
    """Return the value of digits as written ("1,150.5", and "2,4" with a decimal comma), or None."""
    if _DECIMAL_COMMA.fullmatch(text):
        return float(text.replace(",", "."))
    return float(text.replace(",", "")) if _WRITTEN.fullmatch(text) else None


def decimals_written(text: str) -> int:
    """Return how many digits stand behind the decimal sign of digits as written."""
    sign = "," if _DECIMAL_COMMA.fullmatch(text) else "."
    return len(text.partition(sign)[2])


def _atom(narration: Narration, i: int) -> Atom | None:
    token = narration.tokens[i]
    low = token.lower
    if low in _VULGAR:
        return Atom("S", _VULGAR[low], i, low)
    if low[0].isdigit() or low[0] == ".":
        value = written_value(low)
        if value is not None:
            return Atom("N", value, i, low)
        fraction = _FRACTION.fullmatch(low)
        if fraction and int(fraction[2]) in _DENOMINATORS and 0 < int(fraction[1]) < int(fraction[2]):
            return Atom("S", int(fraction[1]) / int(fraction[2]), i, low)
        return None
    known = number_words().get(low)
    if known is None:
        return None
    kind, value = known
    if kind == "P" and i and narration.tokens[i - 1].lower in number_set("point", "never_after"):
        # "pole A point oh four" is a number after a name; "a point" is a noun.
        before = narration.tokens[i - 2].lower if i > 1 else ""
        letter = narration.tokens[i - 1].lower in {"a", "b", "c"}
        named = before in number_set("designator", "said") | number_set("designator", "lettered") or (
            narration.tokens[i - 1].text == "A" and before[:1].isalpha()
        )
        anew = narration.lowers[i - 1] == "that" and before in number_set("pronoun", "say_anew")
        if not (letter and named) and not anew:  # "make that point nine" says a value again
            return None
    return Atom(kind, value, i, low)


def runs_of(narration: Narration) -> Iterator[list[Atom]]:
    """Yield the longest stretches of number words; "and", "a" and "an" only inside or before one."""
    run: list[Atom] = []
    words = number_words()
    for i, low in enumerate(narration.lowers):
        if low.isalpha() and low not in words:
            if run:
                yield run
                run = []
            continue
        atom = _atom(narration, i)
        mixed = atom is None and narration.tokens[i].lower == "-" and is_mixed(narration, i)
        if mixed:
            continue  # the hyphen of 1-1/8 joins
        if atom is not None and run and _half_a_time(narration, i):
            yield run
            run = []  # "52 | and half an hour later 44"
        if atom is not None and run and _of_phases(narration, i):
            yield run
            run = []  # "two oh eight | three phase"
        if atom is None:
            if run:
                yield run
                run = []
            continue
        run.append(atom)
    if run:
        yield run


def _of_phases(narration: Narration, i: int) -> bool:
    """Tell whether the number at token i counts the phases or the poles of what was said before it."""
    words = narration.lowers[i : i + 2]
    return (
        words[:1] in (["three"], ["one"], ["two"], ["3"], ["1"], ["2"])
        and words[1:]
        in (
            ["phase"],
            ["pole"],
            ["wire"],
        )
        and narration.lowers[i - 1] not in {"phase", "l", "leg", "and"}
    )


def _half_a_time(narration: Narration, i: int) -> bool:
    """Tell whether "and half an hour" begins at token i: it is a time of its own."""
    words = narration.lowers[i : i + 4]
    if words[:3] == ["half", "an", "hour"]:
        return narration.lowers[i - 1] not in {"a", "and"}  # "one thirty one | half an hour later"
    if words[:1] != ["and"] or words[1:2] not in (["half"], ["quarter"]):
        return False
    rest = words[2:]
    return rest[:1] in (["an"], ["a"], ["of"]) and rest[1:2] in (
        ["hour"],
        ["minute"],
        ["day"],
        ["an"],
        ["turn"],
    )


def is_mixed(narration: Narration, i: int) -> bool:
    """Tell whether the hyphen at token i joins a whole number and a fraction: "1-1/8"."""
    tokens = narration.tokens
    return (
        0 < i < len(tokens) - 1
        and tokens[i - 1].lower.isdigit()
        and _FRACTION.fullmatch(tokens[i + 1].lower) is not None
        and not tokens[i].space_before
    )


def kinds_of(atoms: Sequence[Atom], i: int) -> str:
    """Return the kinds of atoms as one string, a letter each."""
    return "".join(a.kind for a in atoms[i : i + 6])
