"""The text encoder of the second opinion: it reads the words in their order, as the net beside it does not.

    read(narration, wanted) -> Read, what the layers say; read_beside(narration, wanted), while others work
    log_shares(narration, read) -> {head: [number, name]}, logarithms; trained().names names them
    log_shares_of_words(read, places) -> the same of words that may stand for a value ("nothing", "open")
    log_odds_of_steps(read, stretches) -> [stretch, step], logarithms; trained().steps names them
    log_shares_of_parts(read, places) -> [part, what became of it], logarithms; trained().parts names them

Six layers of a language model that has read very much English, fitted to the labelled narrations. It knows
words that no label stands beside, and which number a word belongs to.

    word_pieces     words -> the pieces that it knows
    windows         a narration -> one row of pieces -> windows of it
    model           windows -> what each number may be
    weights/        its weights and vocabulary: data, made from a published model (DEVELOPERS.md names it) by
                    `python -m tests.benchmarks.encoder --write`
"""

from __future__ import annotations

from collections.abc import Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from typing import Any

from dictate.mentions.narration import Narration
from dictate.mentions.quantities import find_quantities
from dictate.mentions.refrigerants.named import find_refrigerants
from dictate.mentions.second_opinion.encoder.model import HEADS, NO_STATE, NO_WAY, known_of, trained
from dictate.mentions.second_opinion.encoder.windows import Row, Window, laid_out
from dictate.mentions.second_opinion.surroundings import size_of
from dictate.mentions.spoken_numbers import find_numbers


def read(narration: Narration, wanted: Sequence[float]) -> Read:
    """Return what the layers say of a narration, for all heads to judge.

    `wanted` says how much somebody wants to know of each number: of very long talk not all is read.
    """
    return read_beside(narration, wanted).result()


def read_beside(narration: Narration, wanted: Sequence[float]) -> Future[Read]:
    """Return what will be read: `read` in a thread of its own, most of it without the interpreter's lock."""
    row, trained_one = row_of(narration), trained()
    beside = ThreadPoolExecutor(1)
    reading = beside.submit(lambda: Read(row, trained_one.read(row, wanted)))
    beside.shutdown(wait=False)
    return reading


@dataclass(frozen=True, slots=True)
class Read:
    """The pieces of a narration, and what the layers say of the windows that were read."""

    row: Row
    windows: list[tuple[Window, Any]]


def log_shares(narration: Narration, of: Read) -> dict[str, Any]:
    """Return the logarithms of the shares for every number of a narration by head, [number, name].

    A way is that of an amount of refrigerant, "charged" or "recovered", or `NO_WAY`; a component or point is
    "" where the number is read on none. The row of a number that is in no window that was read is not a
    number (nan) throughout.
    """
    return trained().judge(of.row, of.windows, known(narration))


def log_shares_of_words(of: Read, places: Sequence[tuple[int, int]]) -> dict[str, Any]:
    """Return the logarithms of the shares by head of the words that may stand for a value, as `log_shares`.

    They are the tokens [start, end); the head "state" says whether they do, `NO_STATE` where not.
    """
    return trained().judge_words(of.row, of.windows, places)


def log_odds_of_steps(of: Read, stretches: Sequence[tuple[int, int]]) -> Any:
    """Return the logarithms of the odds of the steps of `trained().steps`, [stretch, step], as `log_shares`.

    A stretch is the tokens [start, end).
    """
    return trained().judge_steps(of.row, of.windows, stretches)


def log_shares_of_parts(of: Read, places: Sequence[tuple[int, int]]) -> Any:
    """Return the logarithms of the shares of `trained().parts`, [part, name].

    A part is named at the tokens [start, end).
    """
    return trained().judge_parts(of.row, of.windows, places)


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


__all__ = [
    "HEADS",
    "NO_STATE",
    "NO_WAY",
    "Read",
    "known",
    "log_odds_of_steps",
    "log_shares",
    "log_shares_of_parts",
    "log_shares_of_words",
    "read",
    "row_of",
    "trained",
]
