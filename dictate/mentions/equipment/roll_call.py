"""Where the talk turns to one machine of a row that was told off: "Moe is fine", "C, ...", "number five's".

roll_call(roll, words) -> namings, and the words from which none of them is spoken of
"""

from __future__ import annotations

from dictate.mentions.equipment.machine_words import DETERMINERS, NUMBERS, words_ending_at
from dictate.mentions.equipment.namings import Naming
from dictate.mentions.equipment.roll import LETTERS, ORDER, PLACES, STANDS_FOR_IT, Roll, label
from dictate.mentions.patterns import NUMBER_WORDS, Words
from dictate.mentions.whose.things import things_of
from dictate.vocabulary.load import word_set

_OPENERS = word_set("openers", "machine_words") | {"but", "coming", "complaint", "walked"}
_GOES_ON = word_set("goes_on_with", "machine_words")
_MADE_OF_IT = (("'s",), ("is",), ("was",), ("has",), ("had",), ("needs",), ("won't",), ("isn't",))
_BACK = ("on", "to", "by", "at", "over", "into")
_STOPS = ((",",), (".",), (":",), ("again",), ("too",), ("now",), ("first",), ("then",), ())
_LOOKED_AT = word_set("looked_at", "machine_words")
_ONE = (("one",), ("unit",), ("machine",), ("box",), ("side",))
_THROUGH = word_set("through", "machine_words")
_I = (("i",), ("we",), ("nothing",))
_ITS = (("it",), ("i",), (",",), ("its",), ("we",))
_MOST_OPENERS = 4


def roll_call(roll: Roll, words: Words) -> tuple[list[Naming], list[int]]:
    """Return a naming for every turn to one of the row, and the words from which none is spoken of."""
    out = [_turn(roll, one, at, at + 1) for one, at in roll.places.items()]
    numbered = all(one.isdigit() for one in roll.members)
    known = {one: one for one in roll.members} | roll.by
    known |= {said: known[n] for said, n in NUMBERS.items() if n in known}
    if numbered:
        known |= {said: n for said, n in ORDER.items() if n in known}
    behind = 0
    for i in words.starting(known.keys()):
        if roll.told[0] <= i < roll.told[1] or i < behind:
            continue
        found = _told_at(roll, words, i)
        if found is not None:
            out.append(_turn(roll, known[words.words[i]], *found))
            behind = found[1]
    begun = {n.start for n in out[len(roll.places) :]}
    out = [n for k, n in enumerate(out) if k >= len(roll.places) or n.start not in begun]
    spread, nobody = _in_order(roll, words)
    nobody += _compared(out, words)
    if roll.told[1] > roll.told[0]:
        _, end = words.sentences[words.sentence_of[roll.told[1] - 1]]
        nobody.append(end if roll.given else roll.told[1])  # "his brother by the sink is fine, thirty-six."
    for at in roll.places.values():
        start, end = words.sentences[words.sentence_of[at]]
        nobody += [end] if roll.told[1] == roll.told[0] and at > start else []  # "A's running, B is off."
    return [*out, *spread], nobody


def _compared(turns: list[Naming], words: Words) -> list[int]:
    """Return the ends of sentences that turn to two and more: "the first one's is 49, the second's 48".

    What is told behind such a comparison may be of either, or of the one that the talk was of before.
    """
    told: dict[int, set[str]] = {}
    for n in turns:
        told.setdefault(words.sentence_of[n.start], set()).add(n.name)
    return [words.sentences[number][1] for number, names in told.items() if len(names) > 1]


def _in_order(roll: Roll, words: Words) -> tuple[list[Naming], list[int]]:
    """Return a turn for each value of a row that is told in the order of the machines.

    "Suction pressures, one through five: 58, 61, 63, 14 and 7. Heads: 284, 280, ...": as many values as
    machines, where the order is said, and in the sentences that go on so right behind.
    """
    row = words.words
    out: list[Naming] = []
    nobody: list[int] = []
    last = -2
    for i in words.starting(_ORDER_WORDS):
        ranged = row[i] in _THROUGH and _whole_row(roll, words, i)
        if not ranged and not (row[i] in ("order", "turn") and row[i - 1] in ("in", "same")):
            continue
        number = words.sentence_of[i]
        while number > last and number < len(words.sentences):
            first, end = words.sentences[number]
            values = _row_of_values(row, i + 1 if words.sentence_of[i] == number else first, end)
            if len(values) != len(roll.members):
                break
            out += [_turn(roll, one, at, at + 1) for one, at in zip(roll.members, values, strict=True)]
            nobody.append(end)
            last = number
            number += 1
    return out, nobody


_ORDER_WORDS = _THROUGH | {"order", "turn"}


def _whole_row(roll: Roll, words: Words, i: int) -> bool:
    """Tell whether the words around "through" are the first and the last of the row."""
    ends = (label(words, i - 1), label(words, i + 1)) if i else ("", "")
    return ends == (roll.members[0], roll.members[-1])


def _row_of_values(row: tuple[str, ...], k: int, end: int) -> list[int]:
    """Return where each value of the last row of values in a stretch begins: "58, 61, 63, 14, and 7"."""
    out: list[int] = []
    unit = ""
    i = k
    while i < end:
        if not (row[i] in NUMBER_WORDS or row[i][:1].isdigit() or row[i] == "minus"):
            i += 1
            continue
        first = i
        while i < end and (
            row[i] in NUMBER_WORDS
            or row[i][:1].isdigit()
            or row[i] == "minus"
            or (row[i] == "and" and row[i - 1] in ("hundred", "thousand"))
        ):
            i += 1
        between = row[out[-1] : first] if out else ()
        named = [w for w in between if w.isalpha() and w not in NUMBER_WORDS and w not in ("and", "minus")]
        if len(named) == 1 and unit in ("", named[0]) and between[-1] in (",", "and"):
            unit, between = named[0], ()  # "12.1 amps, 9.3 amps, 12.6 amps"
        if any(
            (w.isalpha() or w == ":") and w not in NUMBER_WORDS and w not in ("and", "minus") for w in between
        ):
            out = []  # "amps same order, ...": what stood before words is no part of the row
        out.append(first)
    return out


def without_the_roll(namings: list[Naming], roll: Roll, turns: list[Naming]) -> list[Naming]:
    """Return the namings that are of another machine than the row's; one of the row's is called by its name.

    Left out are the row itself, what it is told off by, turns to one of it that are known, and what was
    picked of the row by words that no one of it is called by.
    """
    first, last = roll.told
    of_row = {
        n.name: max((at, one) for one, at in roll.places.items() if at <= n.start)[1]
        for n in namings
        if first <= n.start < last and any(at <= n.start for at in roll.places.values())
    }
    out = []
    for n in namings:
        if first <= n.start < last or (n.plural and n.kind == roll.kind) or n.kind.room:
            continue
        if any(t.start < n.end and n.start < t.end for t in turns):
            continue
        if n.name in of_row:
            n = _turn(roll, of_row[n.name], n.start, n.end)  # "the case" that number one of the row runs
        elif n.kind == roll.kind and n.name.split()[-1:] == roll.kind.type.split()[-1:]:
            continue
        out.append(n)
    return out


def _turn(roll: Roll, one: str, start: int, end: int) -> Naming:
    return Naming(start, end, roll.kind, roll.name(one), False)


def _told_at(roll: Roll, words: Words, i: int) -> tuple[int, int] | None:
    """Return the words of a turn to the machine that word i may call; None where it is none."""
    row = words.words
    start, end = words.sentences[words.sentence_of[i]]
    said = row[i]
    if said in ORDER:
        if row[i + 1 : i + 2] in _ONE:
            told = _opens(row, start, i) or (
                _clause_opens(row, start, i) and row[i + 2 : i + 3] in _MADE_OF_IT
            )
            return (i, i + 2) if told else None
        clause = i == start or row[i - 1] == ","
        own = clause and row[i + 1 : i + 2] in _MADE_OF_IT
        on_it = row[max(start, i - 2) : i] == ("on", "the") and row[i + 1 : i + 2] in _ITS
        return (i, i + 1) if own or on_it else None
    noun = i > start and row[i - 1] in roll.nouns
    numeral = said in NUMBERS or said.isdigit()
    if noun or "-" in said:
        first = i - noun
        if numeral and (not label(words, i) or _of_a_part(words, first)):
            return None
        if _only_a_place(row, first, start):
            return None
        return first, i + 1
    if numeral:
        return (i, i + 1) if label(words, i) and _number_alone(row, i, start) else None
    if said in LETTERS:
        if label(words, i) != said:
            return None
        opened = _opens(row, start, i) and row[i + 1 : i + 2] and row[i + 1] in _GOES_ON - {"and", "on"}
        gone_to = i > start and row[i - 1] in _BACK and row[i + 1 : i + 2] in _STOPS
        return (i, i + 1) if opened or gone_to else None
    if said in STANDS_FOR_IT:
        return None if _only_a_place(row, i, start) else (i, i + 1)  # "the brother's is eleven ohms"
    if said in roll.by:
        back = i
        while back > start and row[back - 1] in DETERMINERS:
            back -= 1
        led = back > start and row[back - 1] in ("to", "on") and row[max(start, back - 2)] in ("back", "over")
        if said in roll.given and back > start and row[i + 1 : i + 2] in (*_STOPS, ("because",)):
            led = led or row[back - 1] == "to" or row[back - 1] in _LOOKED_AT
        if (
            row[i + 1 : i + 2] in _ONE
            and (back < i or _opens(row, start, i))
            and not _only_a_place(row, back, start)
        ):
            return i, i + 2
        if said in PLACES:
            return None  # "right, ..." is a word of its own
        opened = _opens(row, start, i) and (
            _a_subject(row, i, end) or (said in roll.given and row[i + 1 : i + 2] in _I)
        )
        return (i, i + 1) if led or opened else None
    return None if _only_a_place(row, i, start) else (i, i + 1)  # a name that was given


def _opens(row: tuple[str, ...], start: int, i: int) -> bool:
    """Tell whether the words before word i only lead to it: "now back to", "and the"."""
    lead = row[start:i]
    return len(lead) <= _MOST_OPENERS and all(w in _OPENERS or w in DETERMINERS for w in lead)


def _clause_opens(row: tuple[str, ...], start: int, i: int) -> bool:
    """Tell whether word i opens a clause, after an article or not: "..., and the second one's eleven"."""
    while i > start and (row[i - 1] in DETERMINERS or row[i - 1] in ("and", "but", "so")):
        i -= 1
    return i == start or row[i - 1] in (",", ";", ":")


def _a_subject(row: tuple[str, ...], i: int, end: int) -> bool:
    """Tell whether what is behind word i makes it the machine, and not the thing of this name."""
    behind = row[i + 1] if i + 1 < end else ""
    return behind in _GOES_ON or behind in NUMBER_WORDS or behind[:1].isdigit() or (behind,) in _ONE


def _number_alone(row: tuple[str, ...], i: int, start: int) -> bool:
    """Tell whether a number by itself is a machine: "four's low", "back to 4,", "checked 5 too"."""
    behind = row[i + 1 : i + 2]
    if _opens(row, start, i) and behind in _MADE_OF_IT and row[i] != "one":
        after = row[i + 2 : i + 3]
        return not (after and (after[0] in NUMBER_WORDS or after[0][:1].isdigit()))
    if i - 2 >= start and row[i - 1] in _BACK and row[i - 2] in ("back", "went", "over"):
        return True
    return i > start and row[i - 1] in _LOOKED_AT and (behind in _STOPS or behind in (("over",), ("as",)))


def _of_a_part(words: Words, i: int) -> bool:
    """Tell whether a part that is called by a number ends at word i: "fan number two"."""
    return any(t.end == i for t in things_of(words))


def _only_a_place(row: tuple[str, ...], i: int, start: int) -> bool:
    """Tell whether the words before word i only compare with the machine or say where something is."""
    while i > start and row[i - 1] in DETERMINERS:
        i -= 1
    length = words_ending_at(row, i, "place", start)
    if length == 1 and row[i - 1] in ("to", "into"):
        return False
    return length > words_ending_at(row, i, "introduces", start)
