"""Model and serial numbers, given to the machine that is spoken of."""

from __future__ import annotations

from dictate.mentions.equipment.machine_words import phrases_by_first
from dictate.mentions.equipment.part_numbers import of_a_new_part, of_a_part
from dictate.mentions.equipment.plate_numbers import (
    behind_a_remark,
    first_of_number,
    model_before_serial,
    number_behind,
    number_said_before,
)
from dictate.mentions.equipment.unannounced import read_unannounced
from dictate.mentions.narration import Narration
from dictate.mentions.parts.designations import Designation, read_designation
from dictate.mentions.patterns import Words
from dictate.mentions.refrigerants.named import find_refrigerants
from dictate.mentions.whose.things import things_of
from dictate.record.visit import Equipment
from dictate.vocabulary.load import table, word_set


def spoken_of(entries: list[tuple[int, Equipment]], i: int) -> Equipment | None:
    """Return the machine that was named last before word i."""
    before = [e for start, e in entries if start <= i]
    return before[-1] if before else None


def read_plates(
    narration: Narration, words: Words, entries: list[tuple[int, Equipment]], namings: dict[int, int]
) -> None:
    """Read model and serial numbers; `namings` tells where each name of a machine begins and ends."""
    row = words.words
    _both(narration, words, entries)
    cues = [(field, phrases_by_first(field)) for field in ("model", "serial")]
    opens = {first for _, begun in cues for first in begun}
    i = 0
    refused = -1
    while i < len(row):
        if row[i] not in opens:
            i += 1
            continue
        for field, begun in cues:
            n = max((len(p) for p in begun.get(row[i], ()) if row[i : i + len(p)] == p), default=0)
            if not n:
                continue
            start, _ = words.sentences[words.sentence_of[i]]
            known = [k for k, e in entries if e.type is not None]
            spoken = spoken_of(entries, i)
            kind = spoken.type if spoken is not None else None
            if of_a_part(words, i, start, kind) or of_a_new_part(words, i, start, known) or refused == start:
                refused = start
                i += n
                break
            made = number_said_before(narration, words, i, i + n, start, field)
            if made is None:
                k = first_of_number(words, i + n, namings)
                if k >= len(row):
                    i += n
                    break
                made = read_designation(narration, words.tokens[k])
                if made is None and field == "serial":
                    made = behind_a_remark(narration, words, i + n)
                if made is None or (field == "model" and len(made.text) < 2):
                    made = number_said_before(narration, words, i, i + n, start, field, bare=True)
                if made is None:
                    i += n
                    break
                made = _corrected(narration, made)
            _give(narration, words, entries, made, field, i)
            i = max(i + n, words.word_of_token(made.end) - 1)
            break
        i += 1
    _weakly_named(narration, words, entries, namings)


def _give(
    narration: Narration,
    words: Words,
    entries: list[tuple[int, Equipment]],
    made: Designation,
    field: str,
    i: int,
) -> None:
    """Put a number announced at word i into the machine that is spoken of."""
    row = words.words
    if field == "serial" and any(n.start == made.start for n in find_refrigerants(narration)):
        return  # "serial not readable, R four ten A"
    start, _ = words.sentences[words.sentence_of[i]]
    target = spoken_of(entries, i)
    if target is None:
        following = [e for s, e in entries if s > i and words.sentence_of[s] - words.sentence_of[i] <= 1]
        target = following[0] if following else None
    if target is None:
        s, _ = words.span(i, min(len(row), words.word_of_token(made.end)))
        target = Equipment(at=narration.at(min(s, made.start), made.end), heard=narration.heard(s, made.end))
        entries.insert(0, (i, target))
    correcting = i >= 2 and any(
        w in row[max(start, i - 6) : i] for w in ("no", "sorry", "correction", "wait", "mean")
    )
    if getattr(target, field) is None or correcting:
        setattr(target, field, made.text)
    if field == "model" and target.serial is None:
        number = number_behind(narration, words, made)
        target.serial = number.text if number is not None else None
    if field == "serial" and target.model is None:
        before = model_before_serial(narration, words, i, start)
        target.model = before.text if before is not None else None


def _of_refrigerant(text: str) -> bool:
    """Tell whether a designation is the name of a refrigerant ("R744")."""
    name = f"R-{text[1:].lstrip('-').upper()}"
    return text[:1] == "R" and name in {e["name"].upper() for e in table("refrigerants")["refrigerant"]}


def _same_model(words: Words, entries: list[tuple[int, Equipment]]) -> None:
    """Give a machine of "same model" the model of the one before it of its kind."""
    row = words.words
    for i in words.starting({"same"}):
        if row[i : i + 2] != ("same", "model") or i + 2 >= len(row) or row[i + 2] in ("as", "number"):
            continue
        target = spoken_of(entries, i)
        if target is None or target.model is not None:
            continue
        before = [e for k, e in entries if k < i and e.type == target.type and e.model and e is not target]
        if before:
            target.model = before[-1].model


def _weakly_named(
    narration: Narration, words: Words, entries: list[tuple[int, Equipment]], namings: dict[int, int]
) -> None:
    """Read a model behind "it's marked", "type" or "the badge says": letters and digits, of no part."""
    row = words.words
    begun = phrases_by_first("model_weak")
    named = {t for n in find_refrigerants(narration) for t in range(n.start, n.end)}
    for i in words.starting(begun.keys()):
        n = max((len(p) for p in begun[row[i]] if row[i : i + len(p)] == p), default=0)
        target = spoken_of(entries, i) if n else None
        if target is None or target.model is not None:
            continue
        start, _ = words.sentences[words.sentence_of[i]]
        if any(
            t.start < i
            and not t.modifier
            and t.name != "condensing unit"
            and not any(b <= t.start and t.end <= namings[b] for b in namings)
            for t in things_of(words)
            if start <= t.start
        ):
            continue
        k = first_of_number(words, i + n, namings)
        token = narration.tokens[words.tokens[k]].text if k < len(row) else ""
        if not token[:1].isupper() or token.upper() != token:
            continue
        made = read_designation(narration, words.tokens[k])
        if made is None or not named.isdisjoint(range(made.start, made.end)):
            continue
        behind = narration.tokens[made.end].lower if made.end < len(narration.tokens) else "."
        if _of_refrigerant(made.text) or made.text == target.serial:
            continue
        whole = behind in (",", ".", ";", "and", "serial", "with", "on", "no")
        digits = sum(c.isdigit() for c in made.text)
        if whole and len(made.text) >= 3 and digits >= 1 and made.text[0].isalpha():
            target.model = made.text
            if target.serial is None:
                number = number_behind(narration, words, made)
                target.serial = number.text if number is not None else None
    read_unannounced(narration, words, entries, namings)
    _same_model(words, entries)


def _both(narration: Narration, words: Words, entries: list[tuple[int, Equipment]]) -> None:
    """Read "model and serial, R3SS and 6021D4"."""
    row = words.words
    for i in words.starting({"model"}):
        if row[i : i + 3] != ("model", "and", "serial"):
            continue
        k = i + 3
        while k < len(row) and row[k] in (",", ":", "are", "is", "number", "numbers", "it", "'s"):
            k += 1
        first = read_designation(narration, words.tokens[k]) if k < len(row) else None
        if first is None:
            continue
        k = words.word_of_token(first.end)
        while k < len(row) and row[k] in (",", "and", "serial", "then", "is"):
            k += 1
        second = read_designation(narration, words.tokens[k]) if k < len(row) else None
        target = spoken_of(entries, i)
        if target is not None and second is not None and target.model is None and target.serial is None:
            target.model, target.serial = first.text, second.text


_CUES = word_set("number_taken_back")
_ONLY_WITH_OTHERS = frozenset((",", "on", "that", "i", "make", "er"))  # they take nothing back by themselves


def _corrected(narration: Narration, made: Designation) -> Designation:
    """Return what takes the place of a number just said ("... five five, no wait, five six")."""
    tokens = narration.tokens
    k = made.end
    cues = 0
    while k < len(tokens) and tokens[k].lower in _CUES and k - made.end < 6:
        cues += tokens[k].lower != ","
        k += 1
    if not cues or k >= len(tokens):
        return made
    if _ONLY_WITH_OTHERS.issuperset(t.lower for t in tokens[made.end : k]):
        return made  # "serial 092214 on R290": nothing was taken back
    again = read_designation(narration, k)
    if again is None or not any(c.isdigit() for c in again.text) or len(again.text) < 3:
        return made
    return made if _of_refrigerant(again.text) else again
