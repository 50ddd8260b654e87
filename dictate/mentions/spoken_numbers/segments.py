"""The best way to read a run as numbers: whole ones, decimals and fractions weighed by their cost."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from functools import lru_cache

from dictate.mentions.spoken_numbers.atoms import Atom, Part, kinds_of, number_set
from dictate.mentions.spoken_numbers.integers import integers_at, two_digits_at


def _decimals(atoms: Sequence[Atom], i: int) -> Iterator[tuple[int, str]]:
    """Yield the digits after a point that start at atom i: "two five", "twenty-five", "oh five"."""
    zeros = ""
    j = i
    while j < len(atoms) and atoms[j].kind == "Z":
        zeros += "0"
        j += 1
        yield j, zeros
    for end, value in two_digits_at(atoms, j) if j < len(atoms) else ():
        if value >= 10:
            yield end, zeros + f"{value:.0f}"
    digits, j = "", i
    while j < len(atoms) and (
        atoms[j].kind in {"D", "Z"} or (atoms[j].kind == "N" and atoms[j].word.isdigit())
    ):
        digits += atoms[j].word if atoms[j].kind == "N" else str(int(atoms[j].value))
        j += 1
        yield j, digits


def _parts(atoms: Sequence[Atom], i: int) -> Iterator[Part]:
    """Yield every number that can start at atom i."""
    whole = list(integers_at(atoms, i))
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
            yield Part(end, value, "decimal", cost + more, places=len(digits))
            if end < len(atoms) and atoms[end].kind in {"K", "M"}:
                yield Part(end + 1, value * atoms[end].value, "decimal", cost)
    yield from _fractions(atoms, i, whole)


def _fractions(atoms: Sequence[Atom], i: int, whole: list[Part]) -> Iterator[Part]:
    """Yield fractions alone and after a whole number."""

    def alone(k: int, bare: bool) -> Iterator[tuple[int, float, int]]:
        kinds = kinds_of(atoms, k)
        if kinds[:1] == "S":
            yield k + 1, atoms[k].value, 3
        if kinds[:3] == "YDF" and atoms[k].value + atoms[k + 1].value < atoms[k + 2].value:
            # "sixty-two hundredths", and no "sixty, two hundredths"
            yield k + 3, (atoms[k].value + atoms[k + 1].value) / atoms[k + 2].value, 3
        if kinds[:2] == "YF" and atoms[k].value < atoms[k + 1].value and atoms[k + 1].word.endswith("s"):
            yield k + 2, atoms[k].value / atoms[k + 1].value, 3
        if kinds[:2] in {"DF", "TF", "AF", "NF"}:
            numerator, denominator = atoms[k].value, atoms[k + 1].value
            word = atoms[k + 1].word
            plural = word.endswith("s") or word == "halves"
            if ((numerator == 1) != plural and numerator < denominator) or (
                # "two and three quarter" and "five eighth" are said as well, and "a three-quarter inch line"
                numerator < denominator and (not bare or (numerator, denominator) == (3, 4))
            ):
                yield k + 2, numerator / denominator, 3
        if kinds[:1] == "F" and atoms[k].word in {"half", "quarter"}:
            yield k + 1, 1 / atoms[k].value, 2

    for end, value, places in alone(i, True):
        yield Part(end, value, "fraction", 0.0, places=places)
    for part in whole:
        said_with_oh = part.form == "digits" and kinds_of(atoms, i)[: part.j - i] == "DZD"  # "two oh four"
        if not (part.form in {"plain", "pair"} or said_with_oh) or part.j >= len(atoms):
            continue
        joined = atoms[part.j].kind == "&"
        if joined and part.j + 1 < len(atoms):
            for end, value, places in alone(part.j + 1, False):
                yield Part(end, part.value + value, "fraction", part.cost, places=places)
                if end < len(atoms) and atoms[end].kind in {"K", "M"} and part.value < 1000:
                    # "eleven and a half thousand"
                    yield Part(end + 1, (part.value + value) * atoms[end].value, "plain", part.cost)
        elif atoms[part.j].kind == "S" or (atoms[part.j].kind == "D" and part.value < 100):
            cost = 0.0 if atoms[part.j].kind == "S" else 0.2
            for end, value, places in alone(part.j, True):
                yield Part(end, part.value + value, "fraction", part.cost + cost, places=places)


def _magnitude(part: Part) -> int:
    return len(str(int(abs(part.value))))


def best_segments(atoms: Sequence[Atom]) -> list[tuple[int, Part]]:
    """Split a run of number words into numbers: the fewest, the most regular, alike in size.

    Returns (first atom, part) pairs. Atoms that begin no number ("and", "a", a lone "oh") are skipped.
    """
    return list(_best_segments(tuple(atoms)))


@lru_cache(maxsize=20_000)
def _best_segments(atoms: tuple[Atom, ...]) -> tuple[tuple[int, Part], ...]:
    """Split as `best_segments` does; kept, because the same few words are asked about several times."""
    n = len(atoms)
    keep = 6
    best: list[list[tuple[float, tuple[tuple[int, Part], ...]]]] = [[] for _ in range(n + 1)]
    best[0] = [(0.0, ())]
    for i in range(n):
        best[i] = sorted(best[i], key=lambda b: b[0])[:keep]
        if not best[i]:
            continue
        half = atoms[i].word in {"half", "quarter", *number_set("zero", "said")}
        skip = 0.0 if atoms[i].kind in {"&", "A"} else 0.9 if atoms[i].kind in "ZPF" and not half else 3.0
        if kinds_of(atoms, i)[:3] in {"PDP", "PZP"}:
            skip = 3.0  # "point eight point eight point nine": a row of tenths, and no point of a lesson
        parts = list(_parts(atoms, i))
        for cost, path in best[i]:
            best[i + 1].append((cost + skip, path))
            for part in parts:
                best[part.j].append((cost + 1 + part.cost, (*path, (i, part))))

    def total(found: tuple[float, tuple[tuple[int, Part], ...]]) -> float:
        cost, path = found
        if len(path) < 2:
            return cost
        # "nought point four five | twenty minutes": single digits behind a point are more of its decimals
        cost += sum(
            0.7
            for (_, a), (j, b) in itertools.pairwise(path)
            if a.places and a.form == "decimal" and b.form == "pair" and atoms[j].kind == "D" and a.j == j
        )
        sizes = {_magnitude(p) for _, p in path}
        shapes = {p.places > 0 for _, p in path}
        return cost + 0.6 * (len(sizes) - 1) + 0.3 * (len(shapes) - 1)

    return min(best[n], key=total)[1] if best[n] else ()
