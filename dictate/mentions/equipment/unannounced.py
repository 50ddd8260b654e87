"""Model and serial numbers that nothing announces: "the prep table, PT-6", "RTU two, PK-48, L 44026".

In the sentence that names the machine, a clause that is nothing but letters and digits is its model, and
such a clause right behind the model is its serial number.
"""

from __future__ import annotations

import re

from dictate.mentions.designations import Designation, read_designation
from dictate.mentions.narration import Narration
from dictate.mentions.patterns import Words
from dictate.mentions.refrigerants import find_refrigerants
from dictate.record.visit import Equipment
from dictate.vocabulary.load import word_set

_ENDS = frozenset((",", ".", ";", "and", "serial", "with", "no"))
_PLATES = word_set("plate_nouns", "machine_words")
_MARKS = re.compile(r"[A-Z]\d{1,2}|[A-Z]{1,2}\d[A-Z]?|L\d-L\d")  # phases, error codes, sensors


def read_unannounced(
    narration: Narration, words: Words, entries: list[tuple[int, Equipment]], namings: dict[int, int]
) -> None:
    """Give each machine the model, and the serial number behind it, that its sentence does not announce."""
    row = words.words
    named = {t for n in find_refrigerants(narration) for t in range(n.start, n.end)}
    for index, (k, machine) in enumerate(entries):
        if machine.model is not None or machine.type is None or k not in namings:
            continue
        _, end = words.sentences[words.sentence_of[k]]
        stop = min(end, entries[index + 1][0]) if index + 1 < len(entries) else end
        said_next = end if index + 1 == len(entries) or entries[index + 1][0] > end else stop
        for j in (*range(namings[k], stop), *range(end - 1, said_next)):
            ended = j == end - 1 and row[j] == "."
            if row[j] != "," and not ended and not (j == namings[k] and row[j] in ("is", "'s")):
                continue
            made = _whole_clause(narration, words, j + 1)
            if made is None or not named.isdisjoint(range(made.start, made.end)):
                continue
            if not _is_model(made.text, j == namings[k]):
                continue
            machine.model = made.text
            behind = words.word_of_token(made.end)
            if machine.serial is None and row[behind : behind + 1] == (",",):
                number = _whole_clause(narration, words, behind + 1)
                if (
                    number is not None
                    and named.isdisjoint(range(number.start, number.end))
                    and _is_serial(number.text)
                ):
                    machine.serial = number.text
            break


def _whole_clause(narration: Narration, words: Words, i: int) -> Designation | None:
    """Return the designation that a clause is nothing but, but for "on the tag" behind it."""
    row = words.words
    if i >= len(row):
        return None
    made = read_designation(narration, words.tokens[i])
    if made is None or made.start != words.tokens[i]:
        return None
    first = narration.tokens[made.start].text
    if first.islower() and len(first) > 1 and first.isalpha():
        return None  # "two eighty": a number, and no model
    k = words.word_of_token(made.end)
    if k >= len(row) or row[k] in _ENDS:
        return made
    on_it = row[k] in ("on", "by", "off", "per", "from") and not _PLATES.isdisjoint(row[k + 1 : k + 4])
    return made if on_it else None


def _is_model(text: str, at_once: bool) -> bool:
    letters = sum(c.isalpha() for c in text)
    digits = sum(c.isdigit() for c in text)
    if not text[0].isalpha() or not digits or _MARKS.fullmatch(text) or len(text) > 16:
        return False
    return (digits >= 2 or "-" in text) and letters >= (1 if at_once else 2) and len(text) >= 3


def _is_serial(text: str) -> bool:
    digits = sum(c.isdigit() for c in text)
    return digits >= 3 and len(text) >= 4 and (digits >= 5 or any(c.isalpha() for c in text))
