"""Work that was tried and came to nothing: "went to recover it and the cylinder's full".

in_vain(row)                    do the words say that something came in between, and not what helped?
phrase_of(name, row, i, end)    how long is the phrase of a list of steps_contradicted.toml at word i?
"""

from __future__ import annotations

from functools import cache

from dictate.vocabulary.load import table


def in_vain(row: tuple[str, ...]) -> bool:
    """Tell whether words say that something came in between, and not that it was done after all."""
    end = len(row)
    first = next((k for k in range(end) if phrase_of("in_vain", row, k, end)), None)
    return first is not None and not any(phrase_of("after_all", row, k, end) for k in range(first, end))


def phrase_of(name: str, row: tuple[str, ...], i: int, end: int) -> int:
    """Return how many words a phrase of a list has that stands at word i, 0 for none."""
    for phrase in _phrases(name).get(row[i], ()):
        if row[i : min(end, i + len(phrase))] == phrase:
            return len(phrase)
    return 0


@cache
def _phrases(name: str) -> dict[str, tuple[tuple[str, ...], ...]]:
    """Return the phrases of a list by their first word."""
    out: dict[str, list[tuple[str, ...]]] = {}
    for phrase in table("steps_contradicted").get(name, ()):
        row = tuple(phrase.replace("'s", " 's").split())
        out.setdefault(row[0], []).append(row)
    return {first: tuple(rows) for first, rows in out.items()}
