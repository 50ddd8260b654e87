"""Rows of new parts that run on behind numbers and sizes.

    "In went a new motor, part number FM-1180, a new 5 microfarad, and a three pole contactor, C-30-24."
    "Then the new stuff went in, heater DH-2204, termination switch TS-55, and a timer."

A row goes on at each comma or "and" behind which an article, a number or "new" opens another part, and ends
at a verb of its own, a reason or a full stop.
"""

from __future__ import annotations

from dictate.mentions.handled.doing import Handled
from dictate.mentions.handled.rows import only_a_size
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import BE, DETERMINERS, RATINGS, part_words
from dictate.mentions.patterns import NUMBER_WORDS
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set

_JOINS = (",", "and", "plus")


def run_on(talk: Talk) -> list[Handled]:
    """Return the parts of rows that no other reading reached."""
    out: list[Handled] = []
    covered = {t.start for h in talk.out for t in h.things}
    for h in talk.out:
        if h.action not in ("replaced", "installed") or not h.new or not h.things:
            continue
        if h.status not in ("done", "planned"):
            continue
        _, end = talk.scopes.sentence(h.start)
        things = _items(talk, max(h.end, h.things[-1].end), end, bare=False)
        out += _doings([t for t in things if t.start not in covered], h.status)
        covered |= {t.start for t in things}
    for i, word in enumerate(talk.words):
        if word == "new" and (first := _heads_a_row(talk, i)) is not None:
            _, end = talk.scopes.sentence(i)
            things = [t for t in _items(talk, first, end, bare=True) if t.start not in covered]
            if things and talk.scopes.noun(i, i + 2) == "done":
                out += _doings(things, "done")
    return out


def _doings(things: list[Thing], status: str) -> list[Handled]:
    made: list[Handled] = []
    for t in things:
        action = "installed" if t.part in part_words("added") else "replaced"
        made.append(Handled(action, status, [t], t.start, t.end, None, True))  # type: ignore[arg-type]
    return made


def _heads_a_row(talk: Talk, i: int) -> int | None:
    """Return the word at which the row begins that "the new stuff went in," announces."""
    if talk.words[i + 1 : i + 2] and talk.words[i + 1] not in word_set("new_stuff"):
        return None
    k = i + 2
    while k < len(talk.words) and talk.words[k] in word_set("went_in_words"):
        k += 1
    ends = talk.words[k : k + 1] in ((",",), (":",))
    return k if k > i + 2 and ends else None


def _items(talk: Talk, k: int, end: int, *, bare: bool) -> list[Thing]:
    """Return the parts that the row from word k on names; `bare` ones need no article."""
    out: list[Thing] = []
    while k < end:
        word = talk.words[k]
        if word in _JOINS or (bare and word == ":"):
            thing = _item(talk, k + 1, end, bare=bare)
            if thing is not None:
                out.append(thing)
                k = thing.end
                continue
        elif word in ("that", "which"):
            k = next(
                (j for j in range(k, end) if talk.words[j] in _JOINS), end
            )  # "... that I measured at 5,"
            continue
        elif word in word_set("ends_run_on") or (_own_verb(talk, k) and word not in word_set("aside_verbs")):
            break
        k += 1
    return out


def _own_verb(talk: Talk, k: int) -> bool:
    return (
        talk.scopes.kind(k) in ("past", "third", "base")
        and talk.words[k] not in NUMBER_WORDS
        and (talk.thing_over(k) is None)
    )


def _item(talk: Talk, k: int, end: int, *, bare: bool) -> Thing | None:
    """Return the part that an article, sizes and a name make at word k."""
    opened = bare
    while k < end and talk.words[k] in _JOINS:
        k += 1
    first = k
    while k < end and talk.thing_from(k) is None:
        word = talk.words[k]
        if word in ("a", "an", "another", "new", "two", "three", "four", "both"):
            opened = True
        elif not (
            word in NUMBER_WORDS
            or word[0].isdigit()
            or word in RATINGS
            or word in word_set("apposed_to_part")
            or word in DETERMINERS
            or word in part_words("plain_new")
        ):
            break
        k += 1
    thing = talk.thing_from(k) if k < end else None
    if thing is None and opened and not bare:
        thing = _capacitor_by_size(talk, first, end)
    if (
        thing is None
        or not opened
        or thing.modifier
        or thing.name in part_words("no_part") | part_words("bits_of_a_repair")
        or only_a_size(talk, thing)  # "a new contactor, two forty coil"
    ):
        return None
    following = talk.thing_from(thing.end)
    if following is not None and not following.modifier:
        thing = following
    after = talk.words[thing.end] if thing.end < end else "."
    if after in BE or talk.scopes.kind(thing.end) in ("past", "third") or after == "'s":
        return None
    if after in ("which", "that") and talk.words[thing.end + 1 : thing.end + 2] not in (("i",), ("we",)):
        return None
    return thing


def _capacitor_by_size(talk: Talk, k: int, end: int) -> Thing | None:
    """Return the capacitor that only its size names ("a new 5 microfarad")."""
    while k < end and (talk.words[k] in DETERMINERS or talk.words[k] in part_words("plain_new")):
        k += 1
    first = k
    while k < end and (
        talk.words[k] in NUMBER_WORDS or talk.words[k][0].isdigit() or talk.words[k] in _SIZE_JOINS
    ):
        k += 1
    if k == first or k >= end:
        return None
    told = [t for t in talk.things if t.start < first and t.name.endswith("capacitor")]
    if talk.words[k] in word_set("microfarads"):
        k += 1
    elif not (told and k - first >= 2 and talk.words[k] in ("went", "in", "on")):
        return None
    name = next((t.name for t in reversed(told) if t.name != "start capacitor"), "run capacitor")
    return Thing(first, k, name, name)


_SIZE_JOINS = ("plus", "over", "by", "and", "slash", "/", "+", "point")


def by_size(talk: Talk) -> list[Handled]:
    """Read "new 45 5 went in": a capacitor named by its size alone."""
    out: list[Handled] = []
    for i, word in enumerate(talk.words):
        if word != "new" or i + 1 >= len(talk.words):
            continue
        _, end = talk.scopes.sentence(i)
        thing = _capacitor_by_size(talk, i + 1, end)
        if thing is None or talk.words[thing.end : thing.end + 2] not in _WENT_IN:
            continue
        if talk.scopes.noun(i, thing.end) == "done":
            out.append(Handled("replaced", "done", [thing], i, thing.end, None, True))
    return out


_WENT_IN = (
    ("went", "in"),
    ("went", "on"),
    ("in", "."),
    ("in", ","),
    ("on", "."),
    ("in", "and"),
    ("put", "in"),
)
