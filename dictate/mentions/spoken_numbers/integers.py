"""Whole numbers at a place of a run: plain ones, hundreds as pairs, digit by digit."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from dictate.mentions.spoken_numbers.atoms import Atom, Part, decimals_written, kinds_of, number_set
from dictate.mentions.spoken_numbers.number import Other

_TENTHS = re.compile(r"\.\d{1,2}")
TWO_DIGITS = "two digits said one after the other can mean {} or {}"


def two_digits_at(atoms: Sequence[Atom], i: int) -> Iterator[tuple[int, float]]:
    """Yield the numbers 1 to 99 that start at i, the longest first."""
    kinds = kinds_of(atoms, i)
    if kinds.startswith("YD"):
        yield i + 2, atoms[i].value + atoms[i + 1].value
    if kinds[:1] in {"Y", "T", "D"}:
        yield i + 1, atoms[i].value


def _hundreds(atoms: Sequence[Atom], i: int) -> Iterator[Part]:
    """Yield "two hundred [and] eight", "twenty-four hundred", "a hundred"."""
    kinds = kinds_of(atoms, i)
    bases = [(j, v) for j, v in two_digits_at(atoms, i) if j < len(atoms) and atoms[j].kind == "H"]
    if kinds.startswith("AH"):
        bases.append((i + 1, 1.0))
    if kinds.startswith("H"):
        bases.append((i, 1.0))
    if kinds.startswith("NH") and atoms[i].value < 100:
        bases.append((i + 1, atoms[i].value))
    for j, base in bases:
        value, j = base * 100, j + 1
        yield Part(j, value)
        k = j + 1 if j < len(atoms) and atoms[j].kind == "&" else j
        for end, rest in two_digits_at(atoms, k):
            yield Part(end, value + rest)
        if kinds_of(atoms, k).startswith("ZD"):
            yield Part(k + 2, value + atoms[k + 1].value)
        if k > j and k < len(atoms) and atoms[k].kind == "N" and atoms[k].value < 100:
            yield Part(k + 1, value + atoms[k].value)
        elif k == j < len(atoms) and atoms[i].kind == atoms[k].kind == "N" and _tens(atoms[k]):
            # "3 hundred 10", as a recogniser writes it
            rest = atoms[k].value
            why = f"the words can be one number, {value + rest:g}, or two, {value:g} and {rest:g}"
            yield Part(k + 1, value + rest, others=(Other((value, rest), why),))


def _slang(atoms: Sequence[Atom], i: int) -> Iterator[Part]:
    """Yield "a buck eighty", "a buck oh five", "a buck and a half" (150): of volts, as of money."""
    kinds = kinds_of(atoms, i)
    j = i + (kinds[:1] == "A")
    if kinds_of(atoms, j)[:1] != "B":
        return
    hundred, behind = atoms[j].value, kinds_of(atoms, j + 1)
    for end, rest in two_digits_at(atoms, j + 1):
        if rest >= 10:
            yield Part(end, hundred + rest)
    if behind.startswith("ZD"):
        yield Part(j + 3, hundred + atoms[j + 2].value)
    if behind.startswith("&AF"):
        yield Part(j + 4, hundred + hundred / atoms[j + 3].value)


def _tens(atom: Atom) -> bool:
    return 10 <= atom.value < 100 and atom.value.is_integer() and atom.word.isdigit()


def _pairs(atoms: Sequence[Atom], i: int) -> Iterator[Part]:
    """Yield hundreds said as pairs: "two fifty", "one eighteen", "two oh eight", "eleven fifty"."""
    kinds = kinds_of(atoms, i)
    if kinds[:2] in {"DY", "DT"}:
        for end, rest in two_digits_at(atoms, i + 1):
            yield Part(end, atoms[i].value * 100 + rest, "pair")
    for j, left in two_digits_at(atoms, i):
        if left < 10 or j >= len(atoms):
            continue
        after = kinds_of(atoms, j)
        digit_alone = after[:1] == "D" and after[:2] not in {"DY", "DT", "DZ", "DD", "DH", "DF"}
        zero_alone = after[:1] == "Z" and after[:2] not in {"ZD", "ZZ", "ZP"}
        if (digit_alone or zero_alone) and (atoms[i].kind == "T" or j == i + 2):
            # "eleven two" on a clamp meter is 11.2: the point is left out
            digit = atoms[j].value
            why = f"these words can also be the two numbers {left:g} and {digit:g}"
            value = float(f"{left:.0f}.{digit:.0f}")
            yield Part(j + 1, value, "short_decimal", 0.4, 1, others=(Other((left, digit), why),))
        if after.startswith("ZD"):
            yield Part(j + 2, left * 100 + atoms[j + 1].value, "pair")
        if after[:1] in {"Y", "T"}:
            for end, rest in two_digits_at(atoms, j):
                if rest < 10:
                    continue
                usual = atoms[i].kind == "T" and atoms[j].kind == "Y"
                why = f"these words can also be the two numbers {left:g} and {rest:g}"
                other = Other((left, rest), why)
                yield Part(end, left * 100 + rest, "pair", 0.1 if usual else 0.5, others=(other,))


def _digit_runs(atoms: Sequence[Atom], i: int) -> Iterator[Part]:
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
            yield Part(j, split, "two_digits", 0.3, places=1, text=digits, others=(other,))
        elif n >= 2 and digits.strip("0"):  # "zero zero zero" is what three legs showed
            yield Part(j, float(digits), "digits", 0.0 if n > 2 else 0.1, text=digits)


def _oh(atoms: Sequence[Atom], j: int) -> bool:
    """Tell whether a written digit stands beside a spoken "oh" ("2 oh 7")."""
    near = [atoms[k].kind for k in (j - 1, j + 1) if 0 <= k < len(atoms)]
    return "Z" in near


def integers_at(atoms: Sequence[Atom], i: int) -> Iterator[Part]:
    """Yield every whole number that can start at atom i."""
    small: list[Part] = []
    for end, value in two_digits_at(atoms, i):
        small.append(Part(end, value))
    if atoms[i].kind == "N":
        places = decimals_written(atoms[i].word)
        small.append(Part(i + 1, atoms[i].value, "decimal" if places else "plain", places=places))
    if atoms[i].kind == "Z" and atoms[i].word in number_set("zero", "said"):
        small.append(Part(i + 1, 0.0))
    small += _hundreds(atoms, i)
    small += _slang(atoms, i)
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
        yield Part(k, value)
        if k < len(atoms) and atoms[k].kind == "&":
            k += 1
        if k >= len(atoms):
            continue
        rest = [*_hundreds(atoms, k), *(Part(e, v) for e, v in two_digits_at(atoms, k))]
        if atoms[k - 1].kind == "K":
            rest += [p for p in _pairs(atoms, k) if 100 <= p.value <= 999]  # "four thousand one fifty"
        if atoms[j].kind == "M":
            for e, v in [(p.j, p.value) for p in rest]:
                if e < len(atoms) and atoms[e].kind == "K":
                    yield Part(e + 1, value + v * 1000)
                    tail = e + 2 if e + 1 < len(atoms) and atoms[e + 1].kind == "&" else e + 1
                    if tail < len(atoms):
                        last = [*_hundreds(atoms, tail), *(Part(a, b) for a, b in two_digits_at(atoms, tail))]
                        yield from (Part(p.j, value + v * 1000 + p.value) for p in last if p.value < 1000)
        yield from (Part(p.j, value + p.value) for p in rest if p.value < 1000)
    yield from _short_written(atoms, i)
    if _is_hundreds_and(atoms, i):
        left, right = atoms[i].value, atoms[i + 2].value
        why = f"the words can be one number, {left + right:g}, or two, {left:g} and {right:g}"
        yield Part(i + 3, left + right, "plain", 0.0, others=(Other((left, right), why),))
    if kinds_of(atoms, i).startswith("NN") and 1 <= atoms[i].value <= 9 and 10 <= atoms[i + 1].value <= 99:
        left, right = atoms[i].value, atoms[i + 1].value
        if left.is_integer() and right.is_integer():
            why = f"the words can be one number, {left * 100 + right:g}, or two, {left:g} and {right:g}"
            yield Part(i + 2, left * 100 + right, "pair", 0.4, others=(Other((left, right), why),))


def _short_written(atoms: Sequence[Atom], i: int) -> Iterator[Part]:
    """Yield "12 5" and "12 .5" as a recogniser writes the spoken 12.5."""
    if not kinds_of(atoms, i).startswith("NN") or (
        kinds_of(atoms, i).startswith("NNN") and len(atoms[i + 2].word) == 1
    ):
        return
    left, right = atoms[i], atoms[i + 1]
    if left.word.isdigit() and _TENTHS.fullmatch(right.word):
        yield Part(i + 2, float(left.word + right.word), "decimal", 0.0, len(right.word) - 1)  # "5 .2"
    if 10 <= left.value <= 99 and left.word.isdigit() and len(right.word) == 1 and right.word.isdigit():
        value = float(f"{left.word}.{right.word}")
        why = f"the words can be one number, {value:g}, or two, {left.value:g} and {right.value:g}"
        yield Part(i + 2, value, "short_decimal", 0.3, 1, others=(Other((left.value, right.value), why),))


def _is_hundreds_and(atoms: Sequence[Atom], i: int) -> bool:
    """Tell whether a recogniser wrote a spoken hundred in two pieces: "200 and 8", "400 and 80"."""
    if not kinds_of(atoms, i).startswith("N&N"):
        return False
    left, right = atoms[i].value, atoms[i + 2].value
    return 100 <= left <= 9900 and left % 100 == 0 and 1 <= right <= 99 and right.is_integer()
