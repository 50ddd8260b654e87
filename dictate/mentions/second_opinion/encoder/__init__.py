"""The text encoder of the second opinion: it reads the words in their order, as the net beside it does not.

    log_shares(narration, wanted) -> {head: [number, name]}, logarithms; trained().names names them

Three layers of a language model that has read very much English, fitted to the labelled narrations. It knows
words that no label stands beside, and which number a word belongs to.

    word_pieces     words -> the pieces that it knows
    windows         a narration -> one row of pieces -> windows of it
    model           windows -> what each number may be
    weights/        its weights and vocabulary: data, made from a published model (DEVELOPERS.md names it) by
                    `python -m tests.benchmarks.encoder --write`
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from dictate.mentions.narration import Narration
from dictate.mentions.quantities import find_quantities
from dictate.mentions.refrigerants.named import find_refrigerants
from dictate.mentions.second_opinion.encoder.model import HEADS, NO_WAY, known_of, trained
from dictate.mentions.second_opinion.encoder.windows import Row, laid_out
from dictate.mentions.second_opinion.surroundings import size_of
from dictate.mentions.spoken_numbers import find_numbers


def log_shares(narration: Narration, wanted: Sequence[float]) -> dict[str, Any]:
    """Return the logarithms of the shares for every number of a narration by head, [number, name].

    A way is that of an amount of refrigerant, "charged" or "recovered", or `NO_WAY`; a component or point is
    "" where the number is read on none.
    `wanted` says how much somebody wants to know of each number, nought for not at all; the row of a number
    that is in no window that was read is not a number (nan) throughout.
    """
    return trained().judge(row_of(narration), known(narration), wanted)


def row_of(narration: Narration) -> Row:
    """Return the pieces of a narration with its numbers."""
    numbers = find_numbers(narration)
    return laid_out(
        narration.lowers,
        [end for _, end in narration.sentences],
        [(x.start, x.end) for x in numbers],
        [size_of(x) for x in numbers],
        trained().pieces,
    )


def known(narration: Narration) -> list[list[str]]:
    """Return for every number of a narration the names of what is known of it beside its words."""
    units: dict[int, str] = {}
    for q in find_quantities(narration):
        for t in range(q.start, q.end):
            units.setdefault(t, q.word)
    names = {t for r in find_refrigerants(narration) for t in range(r.start, r.end)}
    return [
        known_of(
            x.form,
            units.get(x.start, "bare"),
            {"pronoun": x.pronoun, "refrigerant": x.start in names, "written": x.written},
        )
        for x in find_numbers(narration)
    ]


__all__ = ["HEADS", "NO_WAY", "known", "log_shares", "row_of", "trained"]
