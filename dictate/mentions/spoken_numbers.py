"""The spoken-number grammar: number words and digits of a narration, as numbers with token spans.

    find_numbers(narration) -> list[Number]

Every number is found here once, whatever it will turn out to be (a reading, a size, a part of a name); units
are joined in `quantities.py`. What the trade says beyond a general number grammar:

* hundreds as pairs: "two fifty" 250, "one eighteen" 118, "two oh eight" 208, "twenty-four hundred" 2400,
  "eleven fifty" 1150;
* decimals digit by digit: "point eight" 0.8, "four point two five" 4.25, "one point oh five" 1.05;
* fractions: "two and a half" 2.5, "one and an eighth" 1.125, "three eighths" 0.375, "2 1/2", "7/8", "2½";
* single digits: "four oh four" 404; two digits alone ("six eight") can mean 6.8 or 68, so both are kept;
* a recogniser's writing: "200 and 8" is 208, "2 50" may be 250;
* "leg two one eighteen" is leg two, then 118; "that one two oh eight" is 208.

A form with more than one reading keeps the others in `alternatives`, each with a plain reason. Words that
only sound like numbers ("to", "for", "ate") are never numbers here; `quantities.py` knows the few places in
which they may be, and flags them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache

from dictate.mentions.narration import Narration, Token
from dictate.vocabulary.load import table


@dataclass(frozen=True, slots=True)
class Other:
    """Another reading of the same words: one value, or several numbers said one after the other."""

    values: tuple[float, ...]
    why: str


@dataclass(frozen=True, slots=True)
class Number:
    """A number at the tokens [start, end).

    `form` is one of: `plain` (a usual cardinal, in words or digits), `pair` (hundreds as pairs), `digits`
    (digit by digit; `text` then has them, "007"), `decimal`, `fraction`, `ordinal`, `clock` (value in hours),
    `counted` (counts things off), `two_digits` ("six eight"),
    `short_decimal` ("eleven two": 11.2, the point left out). `written` is true
    when it stands in digits. `places` counts the decimal places said. `pronoun` marks a "one" that stands for
    a thing.
    """

    start: int
    end: int
    value: float
    form: str = "plain"
    written: bool = False
    places: int = 0
    text: str = ""
    alternatives: tuple[Other, ...] = ()
    pronoun: bool = False
    negative: bool = False


@dataclass(frozen=True, slots=True)
class _Atom:
    kind: str  # D digit, Z zero, T teen, Y tens, H hundred, K thousand, M million, P point, A a/an, & and,
    #            F fraction word, N written number, S written fraction
    value: float
    token: int
    word: str


@dataclass(frozen=True, slots=True)
class _Part:
    """A candidate number over atoms [i, j) with its cost beyond 1."""

    j: int
    value: float
    form: str = "plain"
    cost: float = 0.0
    places: int = 0
    text: str = ""
    others: tuple[Other, ...] = ()


_WRITTEN = re.compile(r"\d{1,3}(?:,\d{3})+(?:\.\d+)?|\.\d+|\d+(?:\.\d+)?")
_FRACTION = re.compile(r"(\d+)/(\d+)")
_CLOCK = re.compile(r"(\d{1,2}):(\d{2})")
_VULGAR = {"½": 1 / 2, "¼": 1 / 4, "¾": 3 / 4, "⅛": 1 / 8, "⅜": 3 / 8, "⅝": 5 / 8, "⅞": 7 / 8}
_DENOMINATORS = frozenset({2, 3, 4, 5, 8, 10, 16, 32, 64})
_ORDINAL = re.compile(r"(\d+)(?:st|nd|rd|th)")
TWO_DIGITS = "two digits said one after the other can mean {} or {}"


@cache
def _words() -> dict[str, tuple[str, float]]:
    """Return word -> (atom kind, value)."""
    data = table("numbers")
    out: dict[str, tuple[str, float]] = {}
    for kind, name in (("D", "digit"), ("T", "teen"), ("Y", "ten")):
        out |= {w: (kind, float(v)) for w, v in data[name].items()}
    scale = {100: "H", 1000: "K", 1000000: "M"}
    out |= {w: (scale[v], float(v)) for w, v in data["scale"].items()}
    out |= {w: ("F", float(v)) for w, v in data["fraction"].items()}
    out |= dict.fromkeys((*data["zero"]["said"], *data["zero"]["within"]), ("Z", 0.0))
    out |= dict.fromkeys(data["point"]["said"], ("P", 0.0))
    out |= {"a": ("A", 1.0), "an": ("A", 1.0), "and": ("&", 0.0)}
    return out


@cache
def _set(section: str, key: str) -> frozenset[str]:
    return frozenset(table("numbers")[section][key])


def written_value(text: str) -> float | None:
    """Return the value of digits as written ("1,150.5"), or None."""
    return float(text.replace(",", "")) if _WRITTEN.fullmatch(text) else None


def _atom(narration: Narration, i: int) -> _Atom | None:
    token = narration.tokens[i]
    low = token.lower
    if low in _VULGAR:
        return _Atom("S", _VULGAR[low], i, low)
    if low[0].isdigit() or low[0] == ".":
        value = written_value(low)
        if value is not None:
            return _Atom("N", value, i, low)
        fraction = _FRACTION.fullmatch(low)
        if fraction and int(fraction[2]) in _DENOMINATORS and 0 < int(fraction[1]) < int(fraction[2]):
            return _Atom("S", int(fraction[1]) / int(fraction[2]), i, low)
        return None
    known = _words().get(low)
    if known is None:
        return None
    kind, value = known
    if kind == "P" and i and narration.tokens[i - 1].lower in _set("point", "never_after"):
        # "pole A point oh four" is a number after a name; "a point" is a noun.
        before = narration.tokens[i - 2].lower if i > 1 else ""
        letter = narration.tokens[i - 1].lower in {"a", "b", "c"}
        named = before in _set("designator", "said") | _set("designator", "lettered") or (
            narration.tokens[i - 1].text == "A" and before[:1].isalpha()
        )
        if not (letter and named):
            return None
    return _Atom(kind, value, i, low)


def _runs(narration: Narration) -> Iterator[list[_Atom]]:
    """Yield the longest stretches of number words; "and", "a" and "an" only inside or before one."""
    run: list[_Atom] = []
    for i in range(len(narration.tokens)):
        atom = _atom(narration, i)
        mixed = atom is None and narration.tokens[i].lower == "-" and _is_mixed(narration, i)
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


def _is_mixed(narration: Narration, i: int) -> bool:
    tokens = narration.tokens
    return (
        0 < i < len(tokens) - 1
        and tokens[i - 1].lower.isdigit()
        and _FRACTION.fullmatch(tokens[i + 1].lower) is not None
        and not tokens[i].space_before
    )


def _kinds(atoms: Sequence[_Atom], i: int) -> str:
    return "".join(a.kind for a in atoms[i : i + 6])


def _two(atoms: Sequence[_Atom], i: int) -> Iterator[tuple[int, float]]:
    """Yield the numbers 1 to 99 that start at i, the longest first."""
    kinds = _kinds(atoms, i)
    if kinds.startswith("YD"):
        yield i + 2, atoms[i].value + atoms[i + 1].value
    if kinds[:1] in {"Y", "T", "D"}:
        yield i + 1, atoms[i].value


def _hundreds(atoms: Sequence[_Atom], i: int) -> Iterator[_Part]:
    """Yield "two hundred [and] eight", "twenty-four hundred", "a hundred"."""
    kinds = _kinds(atoms, i)
    bases = [(j, v) for j, v in _two(atoms, i) if j < len(atoms) and atoms[j].kind == "H"]
    if kinds.startswith("AH"):
        bases.append((i + 1, 1.0))
    if kinds.startswith("H"):
        bases.append((i, 1.0))
    if kinds.startswith("NH") and atoms[i].value < 100:
        bases.append((i + 1, atoms[i].value))
    for j, base in bases:
        value, j = base * 100, j + 1
        yield _Part(j, value)
        k = j + 1 if j < len(atoms) and atoms[j].kind == "&" else j
        for end, rest in _two(atoms, k):
            yield _Part(end, value + rest)
        if _kinds(atoms, k).startswith("ZD"):
            yield _Part(k + 2, value + atoms[k + 1].value)
        if k > j and k < len(atoms) and atoms[k].kind == "N" and atoms[k].value < 100:
            yield _Part(k + 1, value + atoms[k].value)


def _pairs(atoms: Sequence[_Atom], i: int) -> Iterator[_Part]:
    """Yield hundreds said as pairs: "two fifty", "one eighteen", "two oh eight", "eleven fifty"."""
    kinds = _kinds(atoms, i)
    if kinds[:2] in {"DY", "DT"}:
        for end, rest in _two(atoms, i + 1):
            yield _Part(end, atoms[i].value * 100 + rest, "pair")
    for j, left in _two(atoms, i):
        if left < 10 or j >= len(atoms):
            continue
        after = _kinds(atoms, j)
        digit_alone = after[:1] == "D" and after[:2] not in {"DY", "DT", "DZ", "DD", "DH", "DF"}
        zero_alone = after[:1] == "Z" and after[:2] not in {"ZD", "ZZ", "ZP"}
        if (digit_alone or zero_alone) and (atoms[i].kind == "T" or j == i + 2):
            # "eleven two" on a clamp meter is 11.2: the point is left out
            digit = atoms[j].value
            why = f"these words can also be the two numbers {left:g} and {digit:g}"
            value = float(f"{left:.0f}.{digit:.0f}")
            yield _Part(j + 1, value, "short_decimal", 0.4, 1, others=(Other((left, digit), why),))
        if after.startswith("ZD"):
            yield _Part(j + 2, left * 100 + atoms[j + 1].value, "pair")
        if after[:1] in {"Y", "T"}:
            for end, rest in _two(atoms, j):
                if rest < 10:
                    continue
                usual = atoms[i].kind == "T" and atoms[j].kind == "Y"
                why = f"these words can also be the two numbers {left:g} and {rest:g}"
                other = Other((left, rest), why)
                yield _Part(end, left * 100 + rest, "pair", 0.1 if usual else 0.5, others=(other,))


def _digit_runs(atoms: Sequence[_Atom], i: int) -> Iterator[_Part]:
    """Yield digits said one by one: "four oh four", "oh seven", "six eight"."""
    j = i
    digits = ""
    while j < len(atoms) and (
        atoms[j].kind in {"D", "Z"} or (atoms[j].kind == "N" and len(atoms[j].word) == 1 and _oh(atoms, j))
    ):
        digits += str(int(atoms[j].value))
        j += 1
        n = j - i
        if n == 2 and digits[0] != "0":
            split, joined = float(f"{digits[0]}.{digits[1]}"), float(digits)
            other = Other((joined,), TWO_DIGITS.format(f"{split:g}", f"{joined:g}"))
            yield _Part(j, split, "two_digits", 0.3, places=1, text=digits, others=(other,))
        elif n >= 2 and digits.strip("0"):  # "zero zero zero" is what three legs showed
            yield _Part(j, float(digits), "digits", 0.0 if n > 2 else 0.1, text=digits)


def _oh(atoms: Sequence[_Atom], j: int) -> bool:
    """Tell whether a written digit stands beside a spoken "oh" ("2 oh 7")."""
    near = [atoms[k].kind for k in (j - 1, j + 1) if 0 <= k < len(atoms)]
    return "Z" in near


def _integers(atoms: Sequence[_Atom], i: int) -> Iterator[_Part]:
    """Yield every whole number that can start at atom i."""
    small: list[_Part] = []
    for end, value in _two(atoms, i):
        small.append(_Part(end, value))
    if atoms[i].kind == "N":
        places = len(atoms[i].word.partition(".")[2])
        small.append(_Part(i + 1, atoms[i].value, "decimal" if places else "plain", places=places))
    if atoms[i].kind == "Z" and atoms[i].word in _set("zero", "said"):
        small.append(_Part(i + 1, 0.0))
    small += _hundreds(atoms, i)
    small += _pairs(atoms, i)
    yield from small
    yield from _digit_runs(atoms, i)
    heads = [(p.j, p.value) for p in small if p.form in {"plain", "decimal"}]
    if atoms[i].kind == "A":
        heads.append((i + 1, 1.0))
    for j, head in heads:
        if j >= len(atoms) or atoms[j].kind not in {"K", "M"}:
            continue
        value, k = head * atoms[j].value, j + 1
        yield _Part(k, value)
        if k < len(atoms) and atoms[k].kind == "&":
            k += 1
        if k >= len(atoms):
            continue
        rest = [*_hundreds(atoms, k), *(_Part(e, v) for e, v in _two(atoms, k))]
        if atoms[k - 1].kind == "K":
            rest += [p for p in _pairs(atoms, k) if 100 <= p.value <= 999]  # "four thousand one fifty"
        if atoms[j].kind == "M":
            for e, v in [(p.j, p.value) for p in rest]:
                if e < len(atoms) and atoms[e].kind == "K":
                    yield _Part(e + 1, value + v * 1000)
                    tail = e + 2 if e + 1 < len(atoms) and atoms[e + 1].kind == "&" else e + 1
                    if tail < len(atoms):
                        last = [*_hundreds(atoms, tail), *(_Part(a, b) for a, b in _two(atoms, tail))]
                        yield from (_Part(p.j, value + v * 1000 + p.value) for p in last if p.value < 1000)
        yield from (_Part(p.j, value + p.value) for p in rest if p.value < 1000)
    yield from _short_written(atoms, i)
    if _is_hundreds_and(atoms, i):
        left, right = atoms[i].value, atoms[i + 2].value
        why = f"the words can be one number, {left + right:g}, or two, {left:g} and {right:g}"
        yield _Part(i + 3, left + right, "plain", 0.0, others=(Other((left, right), why),))
    if _kinds(atoms, i).startswith("NN") and 1 <= atoms[i].value <= 9 and 10 <= atoms[i + 1].value <= 99:
        left, right = atoms[i].value, atoms[i + 1].value
        if left.is_integer() and right.is_integer():
            why = f"the words can be one number, {left * 100 + right:g}, or two, {left:g} and {right:g}"
            yield _Part(i + 2, left * 100 + right, "pair", 0.4, others=(Other((left, right), why),))


def _short_written(atoms: Sequence[_Atom], i: int) -> Iterator[_Part]:
    """Yield "12 5" as a recogniser writes the spoken 12.5."""
    if not _kinds(atoms, i).startswith("NN") or (
        _kinds(atoms, i).startswith("NNN") and len(atoms[i + 2].word) == 1
    ):
        return
    left, right = atoms[i], atoms[i + 1]
    if 10 <= left.value <= 99 and left.word.isdigit() and len(right.word) == 1 and right.word.isdigit():
        value = float(f"{left.word}.{right.word}")
        why = f"the words can be one number, {value:g}, or two, {left.value:g} and {right.value:g}"
        yield _Part(i + 2, value, "short_decimal", 0.3, 1, others=(Other((left.value, right.value), why),))


def _is_hundreds_and(atoms: Sequence[_Atom], i: int) -> bool:
    """Tell whether a recogniser wrote a spoken hundred in two pieces: "200 and 8", "400 and 80"."""
    if not _kinds(atoms, i).startswith("N&N"):
        return False
    left, right = atoms[i].value, atoms[i + 2].value
    return 100 <= left <= 9900 and left % 100 == 0 and 1 <= right <= 99 and right.is_integer()


def _decimals(atoms: Sequence[_Atom], i: int) -> Iterator[tuple[int, str]]:
    """Yield the digits after a point that start at atom i: "two five", "twenty-five", "oh five"."""
    zeros = ""
    j = i
    while j < len(atoms) and atoms[j].kind == "Z":
        zeros += "0"
        j += 1
        yield j, zeros
    for end, value in _two(atoms, j) if j < len(atoms) else ():
        if value >= 10:
            yield end, zeros + f"{value:.0f}"
    digits, j = "", i
    while j < len(atoms) and (
        atoms[j].kind in {"D", "Z"} or (atoms[j].kind == "N" and atoms[j].word.isdigit())
    ):
        digits += atoms[j].word if atoms[j].kind == "N" else str(int(atoms[j].value))
        j += 1
        yield j, digits


def _parts(atoms: Sequence[_Atom], i: int) -> Iterator[_Part]:
    """Yield every number that can start at atom i."""
    whole = list(_integers(atoms, i))
    yield from whole
    heads = [(p.j, p.value, p.cost) for p in whole if p.form in {"plain", "pair", "digits"}]
    if atoms[i].kind == "Z":
        heads.append((i + 1, 0.0, 0.0))
    if atoms[i].kind == "P":
        heads.append((i, 0.0, 0.45))
    for j, head, cost in dict.fromkeys(heads):
        if not (j < len(atoms) and atoms[j].kind == "P" and head.is_integer()):
            continue
        for end, digits in _decimals(atoms, j + 1):
            value = float(f"{head:.0f}.{digits}")
            more = 0.1 * max(0, len(digits) - 2)
            yield _Part(end, value, "decimal", cost + more, places=len(digits))
            if end < len(atoms) and atoms[end].kind in {"K", "M"}:
                yield _Part(end + 1, value * atoms[end].value, "decimal", cost)
    yield from _fractions(atoms, i, whole)


def _fractions(atoms: Sequence[_Atom], i: int, whole: list[_Part]) -> Iterator[_Part]:
    """Yield fractions alone and after a whole number."""

    def alone(k: int, bare: bool) -> Iterator[tuple[int, float, int]]:
        kinds = _kinds(atoms, k)
        if kinds[:1] == "S":
            yield k + 1, atoms[k].value, 3
        if kinds[:2] in {"DF", "TF", "AF"}:
            numerator, denominator = atoms[k].value, atoms[k + 1].value
            word = atoms[k + 1].word
            plural = word.endswith("s") or word == "halves"
            if ((numerator == 1) != plural and numerator < denominator) or (
                # "two and three quarter" and "five eighth" are said as well
                bare is False and numerator < denominator
            ):
                yield k + 2, numerator / denominator, 3
        if kinds[:1] == "F" and atoms[k].word in {"half", "quarter"}:
            yield k + 1, 1 / atoms[k].value, 2

    for end, value, places in alone(i, True):
        yield _Part(end, value, "fraction", 0.0, places=places)
    for part in whole:
        if part.form not in {"plain", "pair"} or part.j >= len(atoms):
            continue
        joined = atoms[part.j].kind == "&"
        if joined and part.j + 1 < len(atoms):
            for end, value, places in alone(part.j + 1, False):
                yield _Part(end, part.value + value, "fraction", part.cost, places=places)
        elif atoms[part.j].kind == "S" or (atoms[part.j].kind == "D" and part.value < 100):
            cost = 0.0 if atoms[part.j].kind == "S" else 0.2
            for end, value, places in alone(part.j, True):
                yield _Part(end, part.value + value, "fraction", part.cost + cost, places=places)


def _magnitude(part: _Part) -> int:
    return len(str(int(abs(part.value))))


def _segment(atoms: Sequence[_Atom]) -> list[tuple[int, _Part]]:
    """Split a run of number words into numbers: the fewest, the most regular, alike in size.

    Returns (first atom, part) pairs. Atoms that begin no number ("and", "a", a lone "oh") are skipped.
    """
    n = len(atoms)
    keep = 6
    best: list[list[tuple[float, tuple[tuple[int, _Part], ...]]]] = [[] for _ in range(n + 1)]
    best[0] = [(0.0, ())]
    for i in range(n):
        best[i] = sorted(best[i], key=lambda b: b[0])[:keep]
        if not best[i]:
            continue
        half = atoms[i].word in {"half", "quarter", *_set("zero", "said")}
        skip = 0.0 if atoms[i].kind in {"&", "A"} else 0.9 if atoms[i].kind in "ZPF" and not half else 3.0
        parts = list(_parts(atoms, i))
        for cost, path in best[i]:
            best[i + 1].append((cost + skip, path))
            for part in parts:
                best[part.j].append((cost + 1 + part.cost, (*path, (i, part))))

    def total(found: tuple[float, tuple[tuple[int, _Part], ...]]) -> float:
        cost, path = found
        if len(path) < 2:
            return cost
        sizes = {_magnitude(p) for _, p in path}
        shapes = {p.places > 0 for _, p in path}
        return cost + 0.6 * (len(sizes) - 1) + 0.3 * (len(shapes) - 1)

    return list(min(best[n], key=total)[1]) if best[n] else []


def _cut(narration: Narration, run: list[_Atom]) -> Iterator[tuple[list[_Atom], tuple[Other, ...]]]:
    """Cut a run where its first digit is a name ("leg two | one eighteen") or a pronoun ("that one |")."""
    tokens = narration.tokens
    first = run[0]
    before = tokens[first.token - 1].lower if first.token else ""
    named = _set("designator", "said") | _set("designator", "soft") | _set("designator", "written")
    written = len(run) > 1 and first.kind == "N" and len(first.word) == 1 and run[1].kind == "N"
    if written and before in named:
        yield run[:1], ()
        yield run[1:], ()
        return
    if len(run) > 1 and first.kind == "D":
        if before in _set("designator", "said") and not _named_already(narration, run):
            yield run[:1], ()
            yield run[1:], ()
            return
        zero = run[1].kind == "Z" and len(run) > 2 and run[2].kind == "P"
        if before in _set("designator", "soft") and (run[1].kind in {"Y", "T", "D"} or zero):
            rest = _segment(run[1:])
            joined = _segment(run)
            sure = len(rest) == 1 and (zero or rest[0][1].value >= 100 or len(joined) > 1)
            if sure:
                yield run[:1], ()
                yield run[1:], ()
                return
            if len(rest) == 1 and len(joined) == 1:
                one, two = joined[0][1].value, rest[0][1].value
                why = f"{before} {first.word} and then {two:g}, or the one number {one:g}"
                yield run, (Other((two,), why),)
                return
        if _hyphen_pair(narration, first.token) and len(run) > 2 and len(_segment(run[2:])) == 1:
            yield run[:1], ()
            yield run[1:2], ()
            yield run[2:], ()
            return
        if before in {"to", "l", "leg", "phase"} and _row_of_pairs(narration, first.token):
            yield run[:1], ()
            yield run[1:], ()
            return
        led = before in _set("pronoun", "split_after") and not _came_back(narration, first.token)
        if first.word == "one" and led and run[1].kind == "P":
            rest = _segment(run[1:])
            if len(rest) == 1:
                yield (
                    run,
                    (
                        Other(
                            (rest[0][1].value,),
                            f'"one" may stand for the thing: then it is {rest[0][1].value:g}',
                        ),
                    ),
                )
                return
        if first.word == "one" and led and run[1].kind not in {"P", "H", "K"}:
            yield run[:1], ()
            yield run[1:], ()
            return
    # "between two hundred and two fifty", "from ten and": the word "and" parts the two ends of a range.
    if before in {"between", "both"}:
        cut = next((k for k, a in enumerate(run) if a.kind == "&" and k and k + 1 < len(run)), None)
        if cut is not None and run[cut + 1].kind not in {"A", "F"}:
            yield run[:cut], ()
            yield run[cut + 1 :], ()
            return
    yield run, ()


def _came_back(narration: Narration, i: int) -> bool:
    """Tell whether "back" in front of token i is where a value came back to: "came back one fifty"."""
    words = narration.lowers[max(0, i - 3) : i]
    return words[-1:] == ["back"] and bool(
        {"came", "come", "comes", "coming", "went", "read", "reads", "it", "'s", "is", "was"}
        & set(words[:-1])
    )


def _named_already(narration: Narration, run: list[_Atom]) -> bool:
    """Tell whether the noun before a digit needs no name: "B leg | six point four", "leg | six point four".

    There are three legs and phases, and those with a letter or a place before them have their name.
    """
    tokens = narration.tokens
    first = run[0]
    noun = tokens[first.token - 1].lower
    behind = [t.lower for t in tokens[run[-1].token + 1 : run[-1].token + 3]]
    if noun in {"legs", "phases", "poles"} and behind == [",", first.word]:
        return True  # "on the legs one nineteen, one twenty, one twenty-one"
    if noun in _set("designator", "three") and first.value > 3:
        return True
    before = tokens[first.token - 2].lower if first.token > 1 else ""
    return noun in _set("designator", "placed") and before in _set("designator", "places")


def _row_of_pairs(narration: Narration, i: int) -> bool:
    """Tell whether "one to three | point eight" goes on a row of terminal pairs."""
    small = {"one", "two", "three"}
    names = {"l", "leg", "phase", "t", "line", "and"}
    words = [t.lower for t in narration.tokens[max(0, i - 28) : i]]
    words = [w for w in words if w not in names]
    if len(words) < 2 or words[-1] != "to" or words[-2] not in small:
        return False
    later = [t.lower for t in narration.tokens[i + 1 : i + 16]]
    later = [w for w in later if w not in names]
    return any(
        row[k] in small and row[k + 1] == "to" and row[k + 2] in small
        for row, stop in ((words, len(words) - 4), (later, len(later) - 2))
        for k in range(stop)
    )


def _hyphen_pair(narration: Narration, i: int) -> bool:
    """Tell whether "one-two | four seventy-eight" names two legs: another such pair stands near."""
    small = {"one-", "two-", "three-"}
    tokens = narration.tokens

    def pair(k: int) -> bool:
        if not 0 <= k < len(tokens) - 1 or tokens[k].text.lower() not in small:
            return False
        other = tokens[k + 1].text.lower()
        return other in {"one", "two", "three"} and other != tokens[k].text.lower()[:-1]

    return pair(i) and any(pair(k) for k in range(max(0, i - 12), i + 12) if k != i)


def _number(
    narration: Narration, atoms: list[_Atom], i: int, part: _Part, others: tuple[Other, ...]
) -> Number:
    tokens = narration.tokens
    start, end = atoms[i].token, atoms[part.j - 1].token + 1
    value = part.value
    sign = tokens[start - 1] if start else None
    negative = sign is not None and (
        sign.lower in _set("negative", "said")
        or (sign.lower in {"-", "−", "–"} and not tokens[start].space_before and _opens(tokens, start - 1))
    )
    if negative:
        start -= 1
        value = -value
    pronoun = False
    if part.j - i == 1 and atoms[i].word == "one":
        before = tokens[start - 1].lower if start else ""
        after = tokens[end].lower if end < len(tokens) else ""
        pronoun = before in _set("pronoun", "before") or after in _set("pronoun", "after")
    found = tuple(others) + part.others
    if negative and found:
        found = tuple(Other(tuple(-v for v in o.values), o.why) for o in found)
    return Number(
        start,
        end,
        value,
        part.form,
        all(a.kind in {"N", "S"} for a in atoms[i : part.j]),
        part.places,
        part.text,
        found,
        pronoun,
        negative,
    )


def _opens(tokens: Sequence[Token], i: int) -> bool:
    """Tell whether a hyphen begins a number ("-6") and does not join two ("6-7")."""
    return tokens[i].space_before or i == 0 or tokens[i - 1].lower in {"(", ","}


def _single(narration: Narration) -> Iterator[Number]:
    """Yield clock times and ordinals, which are never part of a longer number here."""
    ordinals = table("numbers")["ordinal"]
    tokens = narration.tokens
    for token in tokens:
        clock = _CLOCK.fullmatch(token.lower)
        if clock and int(clock[1]) < 25 and int(clock[2]) < 60:
            value = int(clock[1]) + int(clock[2]) / 60
            yield Number(token.index, token.index + 1, value, "clock", True, text=token.lower)
            continue
        ordinal = _ORDINAL.fullmatch(token.lower)
        if ordinal:
            yield Number(token.index, token.index + 1, float(ordinal[1]), "ordinal", True)
        elif token.lower in ordinals:
            value, start = float(ordinals[token.lower]), token.index
            before = tokens[start - 1].lower if start else ""
            part = table("numbers")["fraction"].get(token.lower, 0)
            behind = [t.lower for t in tokens[start + 1 : start + 3]]
            shared = behind[:1] == ["across"] or behind in (["of", "a"], ["of", "an"])
            if part >= 10 and before in {"a", "an"} and shared:
                # "a tenth of a volt", "a tenth across B"
                yield Number(start - 1, start + 1, 1 / part, "fraction", False)
                continue
            joined = start and tokens[start - 1].text.endswith("-")
            if value < 10 and (joined or token.lower != "second") and _words().get(before, ("", 0))[0] == "Y":
                value, start = value + _words()[before][1], start - 1
            yield Number(start, token.index + 1, value, "ordinal", False)


def find_numbers(narration: Narration) -> list[Number]:
    """Return every number of the narration in order, without overlaps; computed once per narration."""
    done: list[Number] | None = narration.found.get("numbers")
    if done is not None:
        return done
    out: list[Number] = []
    runs = list(_runs(narration))
    named = _numbered(narration, runs)
    narration.found["counted_off"] = named
    for run in runs:
        if run[0].token in named:
            first = run[0]
            out.append(Number(first.token, first.token + 1, first.value, "counted", first.kind == "N"))
            run = run[1:]
            if not run:
                continue
        if all(a.kind in {"A", "&", "P"} for a in run):
            continue
        # A fraction word alone is an ordinal or a noun unless it is a half or a quarter.
        for piece, others in _cut(narration, run):
            found = _segment(piece)
            last = len(found) - 1
            out += [
                _number(narration, piece, i, part, others if n == last else ())
                for n, (i, part) in enumerate(found)
            ]
    taken = {t for n in out for t in range(n.start, n.end)}
    for single in _single(narration):
        span = range(single.start, single.end)
        if single.form == "ordinal" and single.end - single.start == 2:
            # "twenty-first": the tens alone is no number beside it
            alone = [n for n in out if n.start == single.start and n.end == single.start + 1]
            if single.start in taken and not alone:
                continue  # "one twenty | third": the tens belong to the number before it
            out = [n for n in out if n not in alone]
            taken -= {single.start}
        if taken.isdisjoint(span):
            out.append(single)
            taken.update(span)
    out.sort(key=lambda n: n.start)
    narration.found["numbers"] = out
    return out


def _numbered(narration: Narration, runs: list[list[_Atom]]) -> set[int]:
    """Return the digits that count things off: "one is thirty-two, two is thirty, three thirty-five".

    Each item has the next digit and a value, right behind it or behind a word such as "is"; the values are
    alike in size. Three items are a row, and two where a word stands between digit and value, or where the
    thing is named before ("compressor one twenty-two, two twenty-one").
    """
    words = narration.lowers
    presents = _set("counted_off", "presents")
    found: set[int] = set()
    row: list[tuple[int, float, bool, int]] = []  # token of the digit, value, a word between, end

    def settle() -> None:
        named = bool(row) and row[0][0] > 0 and words[row[0][0] - 1] in _set("counted_off", "nouns")
        spoken = any(between for _, _, between, _ in row)
        if len(row) >= 3 or (len(row) == 2 and (spoken or named)):
            values = [v for _, v, _, _ in row if v] or [0.0]
            if min(values) > 0 and max(values) <= 1.6 * min(values):
                found.update(t for t, _, _, _ in row)
        row.clear()

    k = 0
    while k < len(runs):
        run = runs[k]
        first = run[0]
        item: tuple[int, float, bool, int] | None = None
        digit = first.kind == "D" or (first.kind == "N" and first.word in {"1", "2", "3", "4", "5", "6"})
        step = 1
        if not row and not any(r[0].value == first.value + 1 for r in runs[k + 1 : k + 3]):
            digit = False  # nothing goes on counting behind it
        # "one is point five, | two point five, | three zero": the next digit, and a value like the one before
        goes_on = bool(row) and first.value == _digit_of(runs, row[-1][0]) + 1
        small = goes_on and run[1:2] and run[1].kind == "P" and 0 < row[-1][1] < 1
        none = goes_on and len(row) >= 2 and len(run) == 2 and run[1].kind == "Z"
        if digit and len(run) > 1 and (small or none or run[1].kind not in {"P", "H", "K", "&", "M", "Z"}):
            rest = _segment(run[1:])
            if len(rest) == 1:
                item = (first.token, rest[0][1].value, False, run[-1].token + 1)
        elif digit and len(run) == 1 and k + 1 < len(runs):
            after = runs[k + 1]
            between = words[first.token + 1 : after[0].token]
            rest = _segment(after)
            if 1 <= len(between) <= 2 and set(between) <= presents and len(rest) == 1:
                item = (first.token, rest[0][1].value, True, after[-1].token + 1)
                step = 2
        if item is not None and row:
            gap = words[row[-1][3] : item[0]]
            last = _digit_of(runs, row[-1][0])
            if first.value != last + 1 or len(gap) > 3 or not set(gap) <= _set("counted_off", "between"):
                settle()
        elif item is None and row:
            settle()
        if item is not None and (row or first.value <= 2):
            row.append(item)
        k += step
    settle()
    return found


def _digit_of(runs: list[list[_Atom]], token: int) -> float:
    """Return the digit that begins the run at a token."""
    return next(r for r in runs if r[0].token == token)[0].value


def numbers_by_start(narration: Narration) -> dict[int, Number]:
    """Return the numbers by their first token; computed once per narration."""
    done: dict[int, Number] | None = narration.found.get("numbers_by_start")
    if done is None:
        done = {n.start: n for n in find_numbers(narration)}
        narration.found["numbers_by_start"] = done
    return done


def numbers_by_end(narration: Narration) -> dict[int, Number]:
    """Return the numbers by the token behind them; computed once per narration."""
    done: dict[int, Number] | None = narration.found.get("numbers_by_end")
    if done is None:
        done = {n.end: n for n in find_numbers(narration)}
        narration.found["numbers_by_end"] = done
    return done


def parse(text: str) -> list[Number]:
    """Return the numbers of a plain text: a convenience for tests and other tools."""
    return find_numbers(Narration.from_text(text))


def without(number: Number, why: str) -> Number:
    """Return the number without the alternative that has this reason."""
    return replace(number, alternatives=tuple(o for o in number.alternatives if o.why != why))
