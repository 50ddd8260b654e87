"""The machines of a visit as they are named: `find_equipment(narration) -> list[Equipment]`.

One entry for each naming, in order, also when the same machine is named again ("back on the second
freezer"); the writeup joins those that are one machine. `name` is the machine as said, `type` the trade's
name for it. A model or serial number, and the refrigerant of the plate, go to the machine that was named
last; a number of a part does not.

    machine_words            the words of machines.toml, ready to look up
    namings                  every place where a machine is named
    worked_on                which of them are worked on, and which are only a place or a comparison
    leads                    what the words before a machine say of it
    unknown_kinds            a machine of a kind that no list has, and the only kind that is named at all
    only_numbered            machines told by their number only
    joined_names             names that are made of two, and names that are taken back
    described                what a machine just named is, and no second one
    told_closer              a general word and the closer name behind it that are one machine
    back_to                  where the talk goes back to a machine named before
    picked_of_a_row          one machine of several that were counted ("left one")
    told_in_turn             one of a row told by its looks ("the second is the small one"), others by number
    roll                     what the machines of a row are called that are told off one by one
    roll_call                where the talk turns to one of them
    plates                   model and serial numbers, given to the machine they are of
    plate_numbers            where such a number begins, and numbers said around it
    unannounced              numbers of a plate that nothing announces
    part_numbers             numbers that are a part's
    plate_refrigerants       the refrigerant of each machine
    frozen_rooms             cold rooms that are freezers by what they are kept at
"""

from __future__ import annotations

from itertools import pairwise

from dictate.mentions.equipment.back_to import back_to_one
from dictate.mentions.equipment.described import without_described
from dictate.mentions.equipment.frozen_rooms import call_frozen_rooms
from dictate.mentions.equipment.joined_names import join_names, without_said_again
from dictate.mentions.equipment.namings import find_namings, name_them
from dictate.mentions.equipment.not_ours import without_others
from dictate.mentions.equipment.only_numbered import numbered_units
from dictate.mentions.equipment.picked_of_a_row import picked_of_a_row, without_rows
from dictate.mentions.equipment.plate_refrigerants import read_refrigerants
from dictate.mentions.equipment.plates import read_plates
from dictate.mentions.equipment.roll import find_roll
from dictate.mentions.equipment.roll_call import roll_call, without_the_roll
from dictate.mentions.equipment.told_closer import told_closer
from dictate.mentions.equipment.told_in_turn import other_by_number, told_in_turn
from dictate.mentions.equipment.unknown_kinds import (
    FIRST_SENTENCES,
    GENERAL,
    of_an_unknown_kind,
    only_kind,
    only_where,
)
from dictate.mentions.equipment.worked_on import introduced_anew, without_supply, worked_on
from dictate.mentions.narration import Narration
from dictate.mentions.patterns import Words, words_of
from dictate.mentions.tense import scopes_of
from dictate.record.visit import Equipment


def find_equipment(narration: Narration) -> list[Equipment]:
    """Return the machines as they are named, each naming once, with what was said of their plates."""
    words = words_of(narration)
    scopes = scopes_of(words)
    found = join_names(find_namings(words), words)
    name_them(found, words)
    found = without_others(found, words)
    namings = worked_on([n for n in found if not n.kind.room or introduced_anew(words, n)], words, scopes)
    if (
        not namings
        or namings[0].kind.type in GENERAL
        or words.sentence_of[namings[0].start] >= FIRST_SENTENCES
    ):
        rooms = [n for n in found if n.kind.room and words.sentence_of[n.start] < FIRST_SENTENCES]
        at_home = [n for n in rooms if not only_where(words, n)]
        kinds = of_an_unknown_kind(words, namings, found)
        own = [k for k in kinds if not k.kind.weak] or at_home or kinds[: 0 if namings else 1] or rooms
        if own and own[0] in rooms and own[0] not in at_home and namings:
            own = []
        namings = [*own[:1], *(n for n in namings if not own or n.kind.type not in GENERAL)]
    roll = find_roll(found, words)
    turns, nobody = roll_call(roll, words) if roll is not None else ([], [])
    picked = picked_of_a_row(found, namings, words)
    namings = [*namings, *picked, *told_in_turn(found, namings, words)]
    if roll is not None and turns:
        namings = [*without_the_roll(namings, roll, turns), *turns]
    namings.sort(key=lambda n: n.start)
    namings = without_rows(namings, words)
    supply, namings = without_supply(namings, words)
    namings = told_closer(without_described(without_said_again(namings, words), words), words)
    namings = back_to_one(other_by_number(namings, words), words)
    namings = namings or numbered_units(words) or only_kind(found, words)
    for before, n in pairwise(namings):
        if n.short and n.kind.type == before.kind.type:
            n.name = before.name  # the one that is spoken of
    entries: list[tuple[int, Equipment]] = []
    for n in namings:
        start, end = words.span(n.start, n.end)
        entries.append(
            (
                n.start,
                Equipment(
                    name=n.name,
                    type=n.kind.type or None,
                    at=narration.at(start, end),
                    heard=narration.heard(start, end),
                ),
            )
        )
    read_plates(narration, words, entries, {n.start: n.end for n in (*found, *namings)})
    read_refrigerants(narration, words, entries, found, supply, roll if turns else None)
    if all(e.type is None for _, e in entries):
        _told_by_its_cycle(narration, words, entries)
    call_frozen_rooms(narration, words, entries)
    for _, e in entries:
        e.type = "display case" if e.type == "case" else e.type
    entries += _of_nobody(narration, words, entries, nobody)
    return [e for _, e in sorted(entries, key=lambda x: x[0])]


def _of_nobody(
    narration: Narration, words: Words, entries: list[tuple[int, Equipment]], nobody: list[int]
) -> list[tuple[int, Equipment]]:
    """Return namings without a name: from there on none of the row is spoken of, until one is named."""
    named = {i for i, _ in entries}
    return [
        (i, Equipment(name="", at=narration.at(*words.span(i, i + 1))))
        for i in nobody
        if i not in named and i < len(words.words)
    ]


_BY_ITS_CYCLE = "no machine was named; that it freezes and harvests says what it is"


def _told_by_its_cycle(narration: Narration, words: Words, entries: list[tuple[int, Equipment]]) -> None:
    """Call the machine an ice machine where nothing names it and it freezes and harvests."""
    if "harvest" not in words.words or not {"freeze", "freezes"} & set(words.words):
        return
    if entries:
        entries[0][1].type = "ice machine"
        entries[0][1].review.append(_BY_ITS_CYCLE)
        return
    i = words.words.index("harvest")
    start, end = words.span(i, i + 1)
    at, heard = narration.at(start, end), narration.heard(start, end)
    entries.append((0, Equipment(type="ice machine", at=at, heard=heard, review=[_BY_ITS_CYCLE])))
