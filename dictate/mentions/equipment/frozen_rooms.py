"""A room named only by its walls ("cold room", "cold store", "walk-in") that is kept frozen: a freezer.

What it is kept at says so: the room is, or must be, far below freezing. The refrigerant in a cooler's coil
and the weather get as cold, so a temperature counts only beside a word of the room or of what is wanted.
"""

from __future__ import annotations

from dictate.mentions.equipment.plates import spoken_of
from dictate.mentions.narration import Narration
from dictate.mentions.patterns import Words
from dictate.mentions.spoken_numbers import find_numbers
from dictate.record.visit import Equipment
from dictate.vocabulary.load import word_set

_KIND, _FROZEN = "walk-in cooler", "walk-in freezer"
_FREEZING = -8.0  # no cooler is kept so cold, in Celsius or Fahrenheit
_MARKS = frozenset((",", ".", ";", ":", "..."))
_BY_ITS_WALLS = word_set("rooms_by_their_walls", "machine_words")
_OF_A_COOLER = word_set("rooms_that_are_coolers", "machine_words")
_OF_THE_ROOM = word_set("beside_a_room_temperature", "machine_words")
_OF_ANOTHER = word_set("beside_another_temperature", "machine_words")


def call_frozen_rooms(narration: Narration, words: Words, entries: list[tuple[int, Equipment]]) -> None:
    """Call a cold room a freezer where it is, or must be, frozen, and no other machine is one."""
    rooms = [e for _, e in entries if e.type == _KIND]
    if not rooms or any("freezer" in (e.type or "") for _, e in entries):
        return
    if not all(_only_walls(e) for e in rooms):
        return
    for n in find_numbers(narration):
        if n.value is None or n.value > _FREEZING:
            continue
        k = words.word_of_token(n.start)
        target = spoken_of(entries, k) or entries[0][1]
        if target.type == _KIND and _of_the_room(words, k):
            for e in rooms:
                if e.name == target.name or len({r.name for r in rooms}) == 1:
                    e.type = _FROZEN
            return


def _only_walls(e: Equipment) -> bool:
    said = f" {' '.join((e.name or '').lower().replace('-', ' ').split())} "
    return any(f" {w} " in said for w in _BY_ITS_WALLS) and not any(w in said for w in _OF_A_COOLER)


def _of_the_room(words: Words, k: int) -> bool:
    """Tell whether the clause of a temperature at word k is about the room, or about what is wanted."""
    row = words.words
    first, last = words.sentences[words.sentence_of[min(k, len(row) - 1)]]
    start = next((j + 1 for j in range(k - 1, first - 1, -1) if row[j] in _MARKS), first)
    end = next((j for j in range(k + 1, last) if row[j] in _MARKS), last)
    clause = row[start:end]
    return not _OF_THE_ROOM.isdisjoint(clause) and _OF_ANOTHER.isdisjoint(clause)
