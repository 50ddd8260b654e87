"""Model and serial numbers that nothing announces: "the prep table, PT-6", "RTU two, PK-48, L 44026".

In the sentence that names the machine, a clause that is nothing but letters and digits is its model, and
such a clause right behind the model is its serial number.
"""

from __future__ import annotations

import re

from dictate.mentions.narration import Narration
from dictate.mentions.parts.designations import Designation, read_designation
from dictate.mentions.patterns import Words
from dictate.mentions.refrigerants.named import find_refrigerants
from dictate.record.visit import Equipment
from dictate.vocabulary.load import word_set

_ENDS = frozenset((",", ".", ";", "and", "serial", "with", "no"))
_PLATES = word_set("plate_nouns", "machine_words")
_GOES_ON = frozenset(("too", "on", "in", "from", "running", "as", "also", "at", "by", "is", "that"))
_STAND_FOR = word_set("stands_for_a_machine", "machine_words")
_NO_MODEL = word_set("no_model", "machine_words")
_MARKS = re.compile(r"[A-Z]\d{1,2}|[A-Z]{1,2}\d[A-Z]?|L\d-L\d")  # phases, error codes, sensors


def read_unannounced(
    narration: Narration, words: Words, entries: list[tuple[int, Equipment]], namings: dict[int, int]
) -> None:
    """Give each machine the model, and the serial number behind it, that its sentence does not announce."""
    row = words.words
    ends = frozenset(namings.values())
    named = {t for n in find_refrigerants(narration) for t in range(n.start, n.end)}
    for index, (k, machine) in enumerate(entries):
        if machine.model is not None or machine.type is None:
            continue
        limit = entries[index + 1][0] if index + 1 < len(entries) else len(row)
        if (made := _beside(narration, words, k, limit, ends, named)) is not None:
            machine.model = made.text
            continue
        if k not in namings:
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


def _beside(
    narration: Narration, words: Words, k: int, limit: int, ends: frozenset[int], named: set[int]
) -> Designation | None:
    """Return the model right behind a machine's name, or behind "is an" and ", an".

    "Condensing unit BC eighteen", "ice merchandiser, an IM dash nine", "the evaporator's an EV six oh six".
    """
    row = words.words
    last = words.sentences[min(len(words.sentences) - 1, words.sentence_of[k] + 1)][1]
    for j in range(k, min(last, limit) - 1):
        if j in ends:
            at = j + (row[j] in ("'s", "is"))
        elif row[j + 1] in ("a", "an") and (row[j] in ("is", "'s") and _of_machine(words, j, ends)):
            at = j + 2
        else:
            continue
        if row[at : at + 1] == (",",) and row[at + 1 : at + 2] in (("a",), ("an",)):
            at += 2
        made = _spelled_in_capitals(narration, words, at)
        if made is not None and named.isdisjoint(range(made.start, made.end)):
            return made
    return None


def _of_machine(words: Words, j: int, ends: frozenset[int]) -> bool:
    """Tell whether what stands before "is an" is a machine: its name, or a word that stands for it."""
    row = words.words
    start, _ = words.sentences[words.sentence_of[j]]
    first = max((i + 1 for i in range(start, j) if row[i] in (",", "and")), default=start)
    return j in ends or not _STAND_FOR.isdisjoint(row[first:j])


def _spelled_in_capitals(narration: Narration, words: Words, i: int) -> Designation | None:
    """Return the designation at word i that begins with two capitals and goes on in a number."""
    if i >= len(words.words):
        return None
    t = words.tokens[i]
    head = ""
    for token in narration.tokens[t : t + 4]:
        if not token.text.isalpha() or not token.text.isupper() or len(token.text) > 4:
            break
        head += token.text
    if len(head) < 2 or head in _NO_MODEL:
        return None
    made = read_designation(narration, t)
    if made is None or made.start != t or not any(c.isdigit() for c in made.text):
        return None
    behind = words.word_of_token(made.end)
    if behind < len(words.words) and words.words[behind] not in _ENDS | _GOES_ON:
        return None
    plain = made.text.startswith(head) and not _MARKS.fullmatch(made.text)
    return made if plain and 3 <= len(made.text) <= 16 else None


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
