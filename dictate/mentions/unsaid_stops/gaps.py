"""The words around a gap between two words, as features."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from dictate.vocabulary.load import word_set

NUMBER = "#"


def bare(word: str) -> str:
    """Return a written word without its marks, in lower case, digits as one sign.

    >>> bare("Suction,"), bare("208"), bare("don't")
    ('suction', '#', "don't")
    """
    low = word.strip('.,;:?!"()').lower()
    return NUMBER if low[:1].isdigit() else low


def is_number(word: str) -> bool:
    """Tell whether a bare word is a number or a piece of one."""
    return word == NUMBER or word in word_set("number_words")


def features(words: Sequence[str], i: int) -> Iterator[str]:
    """Yield the features of the gap behind word i."""

    def at(k: int) -> str:
        return words[k] if 0 <= k < len(words) else "$"

    b, a, c, d = at(i - 1), at(i), at(i + 1), at(i + 2)
    yield f"0 {a}"
    yield f"1 {c}"
    yield f"-1 {b}"
    yield f"2 {d}"
    yield f"-2 {at(i - 2)}"
    yield f"3 {at(i + 3)}"
    yield f"01 {a} {c}"
    yield f"-10 {b} {a}"
    yield f"12 {c} {d}"
    yield f"-101 {b} {a} {c}"
    yield f"012 {a} {c} {d}"
    # Numbers in words and in digits are alike here: what counts is where they end.
    n = "".join("n" if is_number(w) else "w" for w in (at(i - 2), b, a, c, d, at(i + 3)))
    yield f"n {n}"
    if n[2] == "n" != n[3]:
        yield f"n1 {c}"
        yield f"n12 {c} {d}"
    if n[3] == "n" != n[2]:
        yield f"0n {a}"
        yield f"-10n {b} {a}"
