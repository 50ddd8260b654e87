"""The refrigerant of each machine: the first one named while it was spoken of."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from dictate.mentions.equipment.leads import RACKS
from dictate.mentions.equipment.namings import Naming, counts_several
from dictate.mentions.equipment.not_ours import not_ours
from dictate.mentions.equipment.part_numbers import is_an_age
from dictate.mentions.equipment.plates import spoken_of
from dictate.mentions.equipment.roll import Roll, label
from dictate.mentions.narration import Narration
from dictate.mentions.parts.designations import read_designation
from dictate.mentions.patterns import NUMBER_WORDS, Words
from dictate.mentions.refrigerants.conversions import of_before
from dictate.mentions.refrigerants.named import RefrigerantName, find_refrigerants
from dictate.record.visit import Equipment
from dictate.vocabulary.load import word_set


def read_refrigerants(
    narration: Narration,
    words: Words,
    entries: list[tuple[int, Equipment]],
    found: list[Naming],
    supply: Naming | None = None,
    roll: Roll | None = None,
) -> None:
    """Give each machine the first refrigerant that was named while it was the subject.

    `supply` is the rack that feeds the cases worked on: what runs in it runs in them. `roll` is a row of
    machines told off one by one: what is named before any of them is spoken of is every one's.
    """
    everything = find_refrigerants(narration)
    before_it, others = of_before(narration, everything), not_ours(words)
    names = [
        n for n in everything if n.start not in before_it and words.sentence_of[_word(words, n)] not in others
    ]
    if not entries:
        own = next((n for n in names if not n.others), None)
        if own is not None:
            at, heard = narration.at(own.start, own.end), narration.heard(own.start, own.end)
            entries.append((0, Equipment(refrigerant=own.name, at=at, heard=heard)))
        return
    rows = {words.sentence_of[n.start]: n.kind.type for n in found if n.plural and counts_several(words, n)}
    shared: list[tuple[str, str]] = []
    for name in names:
        i = words.word_of_token(name.start)
        if i >= len(words.words):
            continue
        start, _ = words.sentences[words.sentence_of[i]]
        before = words.words[max(start, i - 4) : i]
        behind = words.words[words.word_of_token(name.end) : words.word_of_token(name.end) + 8]
        # "an old R-22 rig": what any machine is called
        called = not word_set("any_machine").isdisjoint(behind[:1])
        of_a_machine = called or any(0 <= m.start - words.word_of_token(name.end) <= 1 for m in found)
        if (
            any(
                words.words[k] == "old" and not is_an_age(words.words, k) and not of_a_machine
                for k in range(max(start, i - 2), i)
            )
            or any(w in ("not", "instead", "or", "isn't", "than") for w in _clause(before))
        ) and behind[:1] not in (
            ("system",),
            ("unit",),
            ("machine",),
            ("rack",),
            ("pack",),
            ("plant",),
        ):
            continue
        if _taken_back(narration, name, names):
            continue
        if roll is not None and _of_the_row(roll, words, entries, i):
            left_out = _left_out(roll, words, i)
            for _, each in entries:
                if each.name in {roll.name(m) for m in roll.members if m != left_out}:
                    each.refrigerant = each.refrigerant or name.name
            continue
        excepted = _excepted(roll, words, i) if roll is not None else None
        if excepted is not None:
            for _, each in entries:
                if each.name == excepted:
                    each.refrigerant = name.name
            continue
        if any(w in before for w in ("all", "both", "each")) and words.sentence_of[i] in rows:
            # "Three PTACs, all 410A": it is every one's.
            for _, each in entries:
                if each.type == rows[words.sentence_of[i]] and each.refrigerant is None:
                    each.refrigerant = name.name
        if any(w in before for w in ("both", "all", "each")) or _of_every_one(behind):
            # "Cold room and the freezer room, both R 449A", and "Both 454B." after the two were named.
            here = [k for k, _ in entries if start <= k < i]
            first = all(k > i for k, _ in entries)  # "three on the roof, all of 'em 410A": named later
            for k, each in entries:
                if (
                    k in here or (not here and k < i) or first or _of_every_one(behind)
                ) and each.refrigerant is None:
                    each.refrigerant = name.name
        for _, each in entries:
            # "It's 404A too, same as the chiller".
            if (
                each.refrigerant is None
                and each.type
                and any(
                    behind[j : j + 3] == ("same", "as", "the")
                    and behind[j + 3 : j + 4] == (each.type.split()[-1],)
                    for j in range(len(behind))
                )
            ):
                each.refrigerant = name.name
        if supply is not None and words.sentence_of[i] == words.sentence_of[supply.start]:
            shared.append((name.name, "display case"))
        if words.sentence_of[i] in rows:
            shared.append((name.name, rows[words.sentence_of[i]]))
        target = spoken_of(entries, i) or entries[0][1]
        for each in _named_together(words, entries, target, i) if roll is not None else ():
            each.refrigerant = each.refrigerant or name.name
        if target.refrigerant is None and not _inside([e.model for _, e in entries], narration, name.start):
            target.refrigerant = name.name
            if name.others:
                target.review.extend(r for r in name.reasons if r not in target.review)

    _same_gas(words, entries)
    if len({n.name for n in names}) == 1:
        racks = [e for _, e in entries if e.type in RACKS]
        cases = [e for _, e in entries if e.type in _OF_GENERAL]
        gases = {e.refrigerant for e in (*racks, *cases) if e.refrigerant}
        order = [e for _, e in sorted(entries, key=lambda x: x[0]) if e in racks or e in cases]
        if racks and cases and len(gases) == 1 and order[0] in racks:
            for each in (*racks, *cases):  # what runs in the rack runs in the cases on it
                each.refrigerant = each.refrigerant or next(iter(gases))
    for shared_name, kind in shared if len({s for s, _ in shared}) == 1 else ():
        # "3 cases on one pack, R404A": it is every one's.
        for _, each in entries:
            if each.refrigerant is None and each.type in (kind, _OF_GENERAL.get(kind)):
                each.refrigerant = shared_name


def _word(words: Words, name: RefrigerantName) -> int:
    return min(words.word_of_token(name.start), len(words.words) - 1)


def _of_the_row(roll: Roll, words: Words, entries: list[tuple[int, Equipment]], i: int) -> bool:
    """Tell whether a refrigerant is named of the whole row: none of it was spoken of by itself yet."""
    first, _ = words.sentences[words.sentence_of[roll.start]]
    before = max(0, words.sentence_of[first] - 1)
    if not words.sentences[before][0] <= i or _exception(words, i) is not None:
        return False
    turns = [k for k, _ in entries if k not in roll.places.values() and k >= first]
    return i < min(turns, default=len(words.words)) or _of_every_one(_behind(words, i))


def _behind(words: Words, i: int) -> tuple[str, ...]:
    """Return the words behind the name of a refrigerant at word i."""
    row = words.words
    k = i
    while k < len(row) and (row[k] in NUMBER_WORDS or row[k][:1].isdigit() or len(row[k]) == 1):
        k += 1
    return row[k : k + 8]


def _exception(words: Words, i: int) -> int | None:
    """Return the word "except" before word i in its sentence; None where there is none."""
    start, _ = words.sentences[words.sentence_of[i]]
    return next((k for k in range(start, i) if words.words[k] in _EXCEPT), None)


def _left_out(roll: Roll, words: Words, i: int) -> str:
    """Return the machine of the row that is an exception to word i: "all of them 410A except five"."""
    _, end = words.sentences[words.sentence_of[i]]
    for k in range(i, end):
        if words.words[k] in _EXCEPT:
            return next((one for j in range(k + 1, end) if (one := label(words, j)) in roll.members), "")
    return ""


def _excepted(roll: Roll, words: Words, i: int) -> str | None:
    """Return the name of the machine that has another refrigerant than the row: "except five which is 22"."""
    k = _exception(words, i)
    told = [label(words, j) for j in range(k + 1, i)] if k is not None else []
    return next((roll.name(one) for one in told if one in roll.members), None)


_EXCEPT = frozenset(("except", "excepting", "bar", "save", "but"))


def _named_together(
    words: Words, entries: list[tuple[int, Equipment]], target: Equipment, i: int
) -> list[Equipment]:
    """Return what is named with the machine spoken of: "the left one and the middle one are 404A"."""
    before = sorted(((k, e) for k, e in entries if k <= i), key=lambda x: x[0])
    if len(before) < 2 or before[-1][1] is not target:
        return []
    between = words.words[before[-2][0] : before[-1][0]]
    together = "and" in between and len(between) <= _NEAR and not {",", "."} & set(between)
    return [before[-2][1]] if together else []


_NEAR = 4


def _clause(before: tuple[str, ...]) -> tuple[str, ...]:
    """Return the words behind the last comma: "serial not readable, R410A" denies the serial number."""
    last = max((k for k, w in enumerate(before) if w == ","), default=-1)
    return before[last + 1 :]


def _of_every_one(behind: tuple[str, ...]) -> bool:
    """Tell whether the words behind a refrigerant give it to all machines: "448A both units"."""
    k = int(behind[:1] in (("in",), ("on",), ("for",), ("across",), (",",)))
    k += behind[k : k + 1] == ("the",)
    if behind[k : k + 1] not in (("both",), ("all",), ("each",), ("every",)):
        return False
    k += 1
    while behind[k : k + 1] and behind[k] in ("of", "the", "two", "three", "four"):
        k += 1
    after = behind[k : k + 1]
    return after in ((".",), (",",), ()) or (bool(after) and after[0] in _EVERY_ONE)


_EVERY_ONE = frozenset(
    (
        "units",
        "boxes",
        "machines",
        "systems",
        "cases",
        "them",
        "'em",
        "em",
        "one",
        "unit",
        "machine",
        "box",
        "round",
        "ones",
    )
)
_OF_GENERAL = {"case": "display case", "display case": "case"}


_SAME_GAS = frozenset(("gas", "refrigerant", "freon", "juice"))


def _same_gas(words: Words, entries: list[tuple[int, Equipment]]) -> None:
    """Give a machine of "same gas" the refrigerant of the machine before it."""
    row = words.words
    for i in words.starting({"same"}):
        if i + 1 >= len(row) or row[i + 1] not in _SAME_GAS:
            continue
        target = spoken_of(entries, i)
        before = [e for k, e in entries if k < i and e is not target and e.refrigerant]
        if target is not None and target.refrigerant is None and before:
            target.refrigerant = before[-1].refrigerant


def _inside(models: Iterable[str | None], narration: Narration, start: int) -> bool:
    """Tell whether what sounds like a refrigerant is the end of a model ("model ICE dash four fifty A")."""
    if not start or narration.tokens[start - 1].lower not in ("dash", "hyphen", "-"):
        return False
    made = read_designation(narration, start)
    return made is not None and any(model.endswith(made.text) for model in models if model)


_NO = frozenset(("no", "sorry", "wait", "correction", "scratch", "strike", "rather"))
_FILLERS = frozenset(("uh", "um", "er", "erm", "ah", "eh", "hmm"))
_SAID_ANEW = 40  # tokens within which the right one is said


def _taken_back(narration: Narration, name: RefrigerantName, names: Sequence[RefrigerantName]) -> bool:
    """Tell whether a refrigerant is taken back right behind its name: "R404A no, R410A on the tag"."""
    tokens = [t.lower for t in narration.tokens[name.end : name.end + 6]]
    k = 0
    while k < len(tokens) and tokens[k] in {",", ".", "...", "-", "a", *_FILLERS}:
        k += 1
    if not _FILLERS.isdisjoint(tokens[:k]) and any(
        n.start == name.end + k and n.name != name.name for n in names
    ):
        return True  # "R four fifty, uh, four forty-eight A"
    meant = tokens[k : k + 2] in (["i", "mean"], ["i", "tell"])
    if not meant and tokens[k : k + 1] and tokens[k] not in _NO:
        return False
    return any(name.end <= n.start <= name.end + _SAID_ANEW and n.name != name.name for n in names)
