"""What the machines of a row are called, where they were counted and then told off one by one.

    "three ice machines ... I call them Tom, Dick and Harry"    names that are given
    "four split units ... tagged A, B, C, D"
    "five rooftops, one through five"                           numbers from one to the last
    "two condensing units. Number one does the bakery, number two's the fish room"
    "Portables 4, 5 and 6 ... three wall-hung units"            a noun and its numbers
    "two screws. A's running, B is off. ... A: suction ..."     heads of sentences

`find_roll` returns them, and `roll_call` finds where each of them is spoken of.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from dictate.mentions.equipment.machine_words import DETERMINERS, NUMBERS, Kind
from dictate.mentions.equipment.namings import Naming, counts_several
from dictate.mentions.patterns import NUMBER_WORDS, Words
from dictate.vocabulary.load import table, word_set

ORDER = {"first": "1", "second": "2", "third": "3", "fourth": "4", "fifth": "5", "sixth": "6"}
LETTERS = frozenset("abcdefgh")
THEM = frozenset(("them", "em", "these", "those"))
_OPENERS = word_set("openers", "machine_words")
_COUNTS = word_set("counted", "machine_words")
_CALLING = word_set("calling", "machine_words")
_COUNTED_NOUNS = word_set("counted_nouns", "machine_words")
_THROUGH = word_set("through", "machine_words")
_DOES = word_set("cools_what", "machine_words")
_PLACE_NOUNS = word_set("place_nouns", "machine_words") | word_set("tells_nothing", "machine_words")
STANDS_FOR_IT = frozenset(("brother", "sister", "twin", "mate", "neighbour", "neighbor"))
PLACES = word_set("selecting", "machine_words")
_BEFORE_A_NUMBER = ("number", "unit", "no", "#")
_BETWEEN = (",", "and", "&")
_SOON = 5
"""Sentences in which a row is counted and told off."""
_MOST = 12
_LONGEST = 5
"""Words of what one of them is called by, at most."""


@dataclass(slots=True)
class Roll:
    """A row of machines, with what each is called by."""

    kind: Kind
    members: list[str] = field(default_factory=list)  # "3", "b", "larry", "ch-2", in their order
    by: dict[str, str] = field(default_factory=dict)  # another word for it -> member: "bakery" -> "1"
    places: dict[str, int] = field(default_factory=dict)  # member -> the word at which it was told off
    told: tuple[int, int] = (0, 0)  # the words in which they are told off
    given: frozenset[str] = frozenset()  # words that were said to be what they are called by
    kinds_at: frozenset[int] = frozenset()  # where machines are named by their kind
    start: int = 0  # the word with which they were counted
    nouns: frozenset[str] = frozenset(("number", "unit", "no", "#", "machine", "system"))

    def name(self, member: str) -> str:
        """Return what goes into the record: "rooftop unit 3", "ice machine "larry"."""
        called = member if member.isdigit() or member in LETTERS else f'"{member}"'
        return f"{self.kind.type or 'unit'} {called}"


def find_roll(found: list[Naming], words: Words) -> Roll | None:
    """Return the machines that are told off one by one; None where no row was counted or none was told."""
    counted = _counted(found, words)
    if counted is None:
        return None
    kind, count, start = counted
    kinds_at = frozenset(n.start for n in found if not n.kind.weak and not n.kind.room and not n.plural)
    roll = Roll(kind, start=start, kinds_at=kinds_at)
    for read in (_called, _each_with_its_work, _listed, _one_to_the_last, _one_for_each, _at_heads):
        if read(roll, words, start, count):
            return roll
    return None


def _counted(found: list[Naming], words: Words) -> tuple[Kind, int, int] | None:
    """Return the kind, the number and the first word of the machines that were counted."""
    row = words.words
    _, last = words.sentences[min(_SOON, len(words.sentences)) - 1] if words.sentences else (0, 0)
    rows = [n for n in found if n.plural and n.start < last and counts_several(words, n)]
    for n in rows:
        before = [w for w in row[max(0, n.start - 5) : n.start] if w in _COUNTS]
        if before and len({m.kind.type for m in rows}) == 1:
            return n.kind, _number(before[-1]), n.start
    for n in found:
        if n.plural and not n.kind.room and n.start < last and (count := _numbered_before(words, n)):
            return n.kind, count, n.start  # "trailers 4 and 5, them wall hung package units"
    if any(not n.plural and not n.kind.weak and not n.kind.room and n.start < last for n in found):
        return None  # "two boxes. First the beer cave, then the flower cooler": named by their kinds
    for i in range(1, last):
        if row[i] in _COUNTED_NOUNS:
            start, _ = words.sentences[words.sentence_of[i]]
            before = [w for w in row[max(start, i - 4) : i] if w in _COUNTS]
            if before:
                return Kind("", False), _number(before[-1]), i
    return None


def _numbered_before(words: Words, n: Naming) -> int:
    """Return how many numbers a noun of several before a name has: "trailers 4 and 5, the ...", or 0."""
    row = words.words
    start, _ = words.sentences[words.sentence_of[n.start]]
    for i in range(start + 1, n.start):
        noun = row[i - 1]
        if not (label(words, i).isdigit() and noun.endswith("s") and len(noun) > 3 and noun.isalpha()):
            continue
        listed, end = _list_at(words, i)
        if len(listed) > 1 and end <= n.start and n.start - end <= _LOOKS_BETWEEN:
            return len(listed)
    return 0


_LOOKS_BETWEEN = 4


def _number(word: str) -> int:
    number = {"both": "2", "couple": "2", "pair": "2", "twin": "2"}.get(word, NUMBERS.get(word, word))
    return int(number) if number.isdigit() else 0


def label(words: Words, i: int) -> str:
    """Return the number or the letter that word i may be the name of a machine by; "" for none."""
    w = words.words[i] if i < len(words.words) else ""
    number = NUMBERS.get(w, w)
    if number.isdigit() and 0 < int(number) <= _MOST and not _goes_on(words, i):
        return number
    if w in LETTERS and words.narration.tokens[words.tokens[i]].text.isupper():
        return w
    head, _, tail = w.rpartition("-")
    return w if head.isalpha() and len(head) <= 3 and tail.isdigit() else ""


def _goes_on(words: Words, i: int) -> bool:
    """Tell whether a number goes on behind word i: "one sixty", "two point five"."""
    behind = words.words[i + 1 : i + 2]
    return bool(behind) and (behind[0] in NUMBER_WORDS or behind[0][:1].isdigit())


def _list_at(words: Words, k: int, names: bool = False) -> tuple[list[tuple[str, int]], int]:
    """Return the labels of a list at word k with their places, and the word behind it."""
    row = words.words
    out: list[tuple[str, int]] = []
    _, end = words.sentences[words.sentence_of[k]] if k < len(row) else (k, k)
    while k < end:
        one = label(words, k)
        if not one and names and row[k].isalpha() and len(row[k]) > 2 and row[k] not in NUMBER_WORDS:
            one = row[k] if row[k] not in _BETWEEN and row[k] not in DETERMINERS else ""
        if not one:
            break
        out.append((one, k))
        after = k + 1
        while after < end and row[after] in _BETWEEN:
            after += 1
        if after == k + 1:
            return out, after
        k = after
    while out and k > out[-1][1] + 1 and row[k - 1] in _BETWEEN:
        k -= 1
    return out, k


def _take(roll: Roll, listed: list[tuple[str, int]], start: int, end: int) -> bool:
    """Take a list of two and more that differ."""
    if len({one for one, _ in listed}) != len(listed) or len(listed) < 2:
        return False
    roll.members = [one for one, _ in listed]
    roll.places = dict(listed)
    roll.told = (start, end)
    return True


def _called(roll: Roll, words: Words, start: int, count: int) -> bool:
    """Read names that are given: "I call them Larry, Curly and Moe", "tagged A, B, C, D"."""
    row = words.words
    for i in words.starting(_CALLING):
        if i < start or words.sentence_of[i] - words.sentence_of[start] > _SOON:
            continue
        k = i + 1
        them = bool(THEM & set(row[k : k + 2]))
        if not them and not row[i].endswith(("ed", "ing")):
            continue  # "number two, suction 44": no name is given
        while row[k : k + 1] and (row[k] in THEM or row[k] in ("'", ":", "as")):
            k += 1
        listed, end = _list_at(words, k, names=them)  # "the one they called about, model ..."
        if len(listed) == count and _take(roll, listed, i, end):
            _by_place(roll, words)
            return True
    return False


def _by_place(roll: Roll, words: Words) -> None:
    """Learn which one stands left and right, from "Moe over on the right", where the order bears it out."""
    row = words.words
    places = _ORDERS.get(len(roll.members), ())
    said = {
        one: place
        for i in words.starting(set(roll.members))
        for k in range(i + 1, min(i + 5, len(row)))
        for one, place in ((row[i], row[k]),)
        if place in places
        and all(w in ("over", "on", "in", "at", "the", "is", ",", "'s") for w in row[i + 1 : k])
    }
    order = dict(zip(roll.members, places, strict=False))
    if said and all(order[one] == place for one, place in said.items()):
        roll.by |= {place: one for one, place in order.items()}


_ORDERS = {2: ("left", "right"), 3: ("left", "middle", "right")}


def _one_to_the_last(roll: Roll, words: Words, start: int, count: int) -> bool:
    """Read "one through five" and "A to D" said of as many machines."""
    row = words.words
    for i in words.starting(_THROUGH):
        first, last = (label(words, i - 1), label(words, i + 1)) if i and i + 1 < len(row) else ("", "")
        if i < start - 6 or words.sentence_of[i] - words.sentence_of[start] > _SOON:
            continue
        if first == "1" and last.isdigit() and int(last) == count:
            labels = [str(n) for n in range(1, count + 1)]
        elif first == "a" and last in LETTERS and ord(last) - ord("a") + 1 == count:
            labels = [chr(ord("a") + n) for n in range(count)]
        else:
            continue
        return _take(roll, [(one, i - 1) for one in labels], i - 1, i + 2)
    return False


def _listed(roll: Roll, words: Words, start: int, count: int) -> bool:
    """Read a noun with its numbers, or codes: "Portables 4, 5 and 6", "CH-1 and CH-2"."""
    row = words.words
    begins = words.sentence_of[start]
    first, _ = words.sentences[max(0, begins - 1)]
    _, last = words.sentences[min(begins + 1, len(words.sentences) - 1)]
    i = first
    while i < last:
        one = label(words, i)
        if not one:
            i += 1
            continue
        listed, end = _list_at(words, i)
        noun = row[i - 1] if i > first else ""
        coded = all("-" in x for x, _ in listed)
        plural = noun.endswith("s") and len(noun) > 3 and noun.isalpha()
        if len(listed) == count and (plural or coded) and _take(roll, listed, i - plural, end):
            roll.nouns |= {noun.removesuffix("s")} if plural else set()
            for x in roll.members if coded else ():
                roll.by.setdefault(x.rpartition("-")[2], x)
            kinds = {table("machine_words")["codes"].get(x.partition("-")[0], "") for x in roll.members}
            if coded and not roll.kind.type and len(kinds) == 1:
                roll.kind = Kind(kinds.pop(), False)
            return True
        i = max(end, i + 1)
    return False


def _each_with_its_work(roll: Roll, words: Words, start: int, count: int) -> bool:
    """Read "One's meat, two's produce": a number each, and what it does, by which it is called as well."""
    row = words.words
    begins = words.sentence_of[start]
    for number in range(begins, min(begins + 3, len(words.sentences))):
        first, last = words.sentences[number]
        listed: list[tuple[str, int]] = []
        by: dict[str, list[str]] = {}
        for i in range(first, last):
            before = i - 1 if i > first and row[i - 1] in _BEFORE_A_NUMBER else i
            one = label(words, i)
            opens = before == first or row[before - 1] in (",", ";", "and")
            if not one.isdigit() or int(one) != len(listed) + 1 or not opens or row[i + 1 : i + 2] == ():
                continue
            if row[i + 1] not in _DOES:
                continue
            k = i + 2
            said: list[str] = []
            while k < last and len(said) < _LONGEST and row[k] not in (",", ".", ";", "and"):
                said.append(row[k])
                k += 1
            if any(w in NUMBER_WORDS or w[:1].isdigit() for w in said):
                break  # "one's at forty, two's at thirty-eight": values
            listed.append((one, before))
            by[one] = said
        if len(listed) > 1 and len(listed) == count and _take(roll, listed, first, last):
            _called_by(roll, by)
            return True
    return False


def _one_for_each(roll: Roll, words: Words, start: int, count: int) -> bool:
    """Read "one for the kitchen, one for the bar, a small one for the cellar"."""
    row = words.words
    begins = words.sentence_of[start]
    first, _ = words.sentences[begins]
    _, last = words.sentences[min(begins + 3, len(words.sentences) - 1)]
    listed: list[tuple[str, int]] = []
    last_one = first
    for i in range(first, last - 2):
        if row[i] not in STANDS_FOR_IT | {"one", "other"} or row[i + 1] not in _STANDING:
            continue
        k = i + 2
        while k < last and row[k] in DETERMINERS:
            k += 1
        if k < last and row[k].isalpha() and len(row[k]) > 2 and row[k] not in NUMBER_WORDS:
            listed.append((row[k], i))
            last_one = k + 1
            if row[i] in STANDS_FOR_IT:
                roll.by[row[i]] = row[k]  # "his brother by the sink"
    if len(listed) != count or not _take(roll, listed, first, last_one):
        roll.by.clear()
        return False
    roll.by |= {one: one for one in roll.members}
    roll.given = frozenset(roll.members)
    return True


_STANDING = frozenset(("for", "by", "at", "near", "in", "over", "behind"))


def _called_by(roll: Roll, by: dict[str, list[str]]) -> None:
    """Keep the words by which only one of the row is called."""
    told = {one: {w for w in said if w.isalpha() and _tells(w)} for one, said in by.items()}
    for one, said in told.items():
        for w in said:
            if sum(w in other for other in told.values()) == 1:
                roll.by[w] = one


def _names_one(word: str) -> bool:
    return word.isalpha() and _tells(word) and word not in PLACES | NUMBER_WORDS | _OPENERS


def _tells(word: str) -> bool:
    return len(word) > 2 and word not in DETERMINERS and word not in _PLACE_NOUNS


def _at_heads(roll: Roll, words: Words, start: int, count: int) -> bool:
    """Read letters and numbers at the heads of sentences: "A: suction ... B: ...", "Number one, ..."."""
    row = words.words
    seen: dict[str, int] = {}
    for first, last in words.sentences[words.sentence_of[start] :]:
        noun = row[first] in ("number", "unit", "no", "#", "machine") and first + 2 < last
        i = first + noun
        one = label(words, i)
        if row[first + 1 : first + 2] in (("unit",), ("one",)) and _names_one(row[first]):
            one, i, noun = row[first], first + 1, True  # "Forward unit, ... Saloon unit's ..."
        if row[first] in ORDER and row[first + 1 : first + 2] in (("unit",), ("machine",), ("one",)):
            one, i, noun = ORDER[row[first]], first + 1, True
        if one and i + 1 < last and row[i + 1] in _BEHIND and (noun or one in LETTERS):
            if not roll.kinds_at.isdisjoint(range(i + 1, i + 6)):
                return False  # "First one is the meat case": named by their kinds
            seen.setdefault(one, first)
        for k in range(first + 3, last - 2) if one.isdigit() and noun else ():
            other = NUMBERS.get(row[k + 1], row[k + 1])
            if row[k - 1] == "," and row[k] == row[first] and other.isdigit() and other not in seen:
                seen.setdefault(one, first)
                seen[other] = k  # "Unit one's return is 74, unit two 75"
        for k in range(first + 1, last - 1) if one in LETTERS else ():
            if row[k - 1] == "," and label(words, k) in LETTERS and row[k + 1] in ("on", "off", "'s", "is"):
                seen.setdefault(label(words, k), k)  # "A's running, B on standby"
    kinds = [
        {one for one in seen if one in LETTERS},
        {one for one in seen if one.isdigit()},
        {one for one in seen if len(one) > 2 and one.isalpha()},
    ]
    told = next((said for said in kinds if len(said) > 1), set())
    roll.by |= {one: one for one in told if one.isalpha() and one not in LETTERS}
    if len(told) < 2 or len(told) > max(count, 2):
        return False
    return _take(roll, sorted((one, seen[one]) for one in told), start, start)


_BEHIND = frozenset((",", ":", ".", "so", "while", "'s", "is", "was", "has", "had", "then", "first", "now"))
