"""Replacements told by a noun or a set frame instead of a verb of handling.

"Compressor changeout complete."  "I did the compressor swap."  "Thermostat replacement is scheduled."
"Out with the old contactor and in with the new one."
"Spare motor went in there too."  "It's got a new compressor in it now."
"""

from __future__ import annotations

from bisect import bisect_left

from dictate.mentions.handled.doing import Handled, handled_parts
from dictate.mentions.handled.new_ones import put_off
from dictate.mentions.handled.objects import objects_behind
from dictate.mentions.handled.referents import part_meant
from dictate.mentions.handled.rows import is_mark
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import BE, DETERMINERS, part_words
from dictate.mentions.tense import Status
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set


def told_by_frames(talk: Talk) -> list[Handled]:
    """Return the replacements that a noun of the work or a set frame tells."""
    out: list[Handled] = []
    covered = [(h.start, h.end) for h in talk.out]
    changes, others, has = word_set("change_nouns"), word_set("other_new_words"), word_set("has_words")
    for i, word in enumerate(talk.words):
        made = None
        if word in changes and (word != "out" or talk.words[i - 1] in ("change", "swap")):
            made = _change_done(talk, i)
        elif word == "with" and i and talk.words[i - 1] == "in":
            made = _in_with(talk, i)
        elif word in others:
            made = _other_new_went_in(talk, i)
        elif word == "new" and talk.words[i + 1 : i + 2] in (("i",), ("we",)):
            made = _new_i_put(talk, i)
        elif word == "new" and i > 2 and any(w in has for w in talk.words[i - 4 : i]):
            made = _has_new_now(talk, i)
        elif word in ("on", "in") and i and talk.words[i + 1 : i + 2] in ((",",), (".",), ("and",)):
            made = _in_its_place(talk, i)
        if made is not None and not any(a < made.end and made.start < b for a, b in covered):
            out.append(made)
            covered.append((made.start, made.end))
    return out


def _changed_part(talk: Talk, i: int, start: int, end: int) -> tuple[list[Thing], int, int]:
    """Return the parts whose change word i names, and the words from the first to the last of it."""
    last = i + 1
    if talk.words[i - 1 : i + 1] in (("change", "out"), ("swap", "out"), ("change", "over")):
        i -= 1
    thing = talk.thing_over(i - 1) if i > start else None
    if thing is not None and thing.end == i:
        return handled_parts([thing]), thing.start, last
    if last < end and talk.words[last] == "of":
        things, _, last, _, _ = objects_behind(talk, last + 1, end, "replaced")
        return handled_parts(things), i, last
    return [], i, last


def _change_done(talk: Talk, i: int) -> Handled | None:
    """Read "compressor changeout complete", "did the compressor swap", "replacement of the valve is done"."""
    start, end = talk.scopes.sentence(i)
    things, first, last = _changed_part(talk, i, start, end)
    if not things:
        return None
    status: Status | None = None
    k = last
    while k < end and (talk.words[k] in BE or talk.words[k] in word_set("before_finished")):
        k += 1
    if k < end and talk.words[k] in word_set("finished_words"):
        status, last = talk.scopes.noun(first, last), k + 1
    elif k < end and talk.words[k] in word_set("scheduled_words"):
        status, last = "planned", k + 1
    else:
        j = first - 1
        while j >= start and talk.words[j] in DETERMINERS:
            j -= 1
        j -= j > start and talk.words[j] in ("with", "up", "out")
        form = talk.scopes.forms.get(talk.words[j]) if j >= start else None
        if form is not None and form.verb in word_set("does_work"):
            status, first = talk.scopes.verb(j), j
    if status is None or not talk.scopes.ours(first) or talk.scopes.conditional(first):
        return None
    return Handled("replaced", status, things, first, last, None, True)


def _in_with(talk: Talk, i: int) -> Handled | None:
    """Read "out with the old one and in with the new one": word i is "with" behind "in"."""
    _, end = talk.scopes.sentence(i)
    near = talk.words[i + 1 : min(end, i + 4)]
    if not any(w in ("new", "replacement", "spare") for w in near):
        return None
    if not talk.w.opens(i - 1) and talk.words[i - 2] not in ("and", ",", "then", "back"):
        return None
    things, _, last, pronoun, _ = objects_behind(talk, i + 1, end, "replaced")
    things = handled_parts(things)
    if not things and pronoun:
        meant = part_meant(talk, i, "replaced")
        things = [meant] if meant is not None else []
    if not things or put_off(talk, i, end) or talk.scopes.noun(i, i + 1) != "done":
        return None
    return Handled("replaced", "done", things, i - 1, last, None, True)


def _other_new_went_in(talk: Talk, i: int) -> Handled | None:
    """Read "spare motor went in there too", "rebuilt compressor is in": word i is "spare", "rebuilt" ..."""
    _, end = talk.scopes.sentence(i)
    things, _, last, _, _ = objects_behind(talk, i, end, "replaced")
    things = handled_parts(things)
    after = talk.words[last : last + 2]
    if not things or after not in (
        ("went", "in"),
        ("went", "on"),
        ("is", "in"),
        ("'s", "in"),
        ("goes", "in"),
    ):
        return None
    behind = talk.words[last + 2 : last + 4]
    if behind[:1] == ("the",) and behind[1:] and behind[1] in word_set("supply_places"):
        return None  # "the spare motor is in the van"
    if put_off(talk, i, end) or talk.scopes.noun(i, last) != "done":
        return None
    return Handled("replaced", "done", things, i, last + 2, None, True)


def _has_new_now(talk: Talk, i: int) -> Handled | None:
    """Read "it's got a new compressor in it now": what it has now, or what had failed in it, was put in."""
    start, end = talk.scopes.sentence(i)
    b = i - 1
    while b > start and talk.words[b] in ("a", "an", "brand", "two", "three", "both", "itself"):
        b -= 1
    if talk.words[b] == "got" and talk.words[b - 1] in ("has", "'s", "have", "'ve"):
        b -= 1
    elif talk.words[b] not in ("has", "have"):
        return None
    if b <= start or talk.words[b - 1] in ("i", "we", "he", "they", "you", "who"):
        return None
    things, _, last, _, _ = objects_behind(talk, i, end, "replaced")
    things = handled_parts(things)
    if not things:
        return None
    told = talk.words[last:end]
    if any(w in word_set("times_gone") for w in told) or put_off(talk, start, end):
        return None
    now = "now" in told[:5] or "now" in talk.words[b - 2 : b]
    if not now and not failed_before(talk, things[0].name, i):
        return None
    if not talk.scopes.ours(i) or talk.scopes.conditional(i) or talk.scopes.framed(i):
        return None
    return Handled("replaced", "done", things, b, last, None, True)


def _in_its_place(talk: Talk, i: int) -> Handled | None:
    """Read "Clutch on, bearing and all", "Right fan motor on, VF-9": a part that had failed, put on or in.

    "Compressor on." alone tells that it runs; a mark or a price behind a motor tells of a new one.
    """
    is_in = talk.words[i] == "in" and talk.words[i - 1] in ("'s", "is", "are")  # "seal's in, number 4407"
    thing = talk.thing_over(i - 2 if is_in else i - 1)
    start, end = talk.scopes.sentence(i)
    if thing is None or thing.end != i - is_in or thing.generic or not handled_parts([thing]):
        return None
    if any(w not in word_set("before_part_in_place") for w in talk.words[start : thing.start]):
        return None
    if not failed_before(talk, thing.name, thing.start) or _came_off(talk, thing):
        return None
    runs = thing.name.endswith(("motor", "heater", "pump")) or thing.name in ("compressor", "blower")
    behind = talk.words[i + 1 : min(end, i + 10)]
    told = any(is_mark(w) for w in behind) or any(w in word_set("money") or w == "dollars" for w in behind)
    spelled = any(w in ("dash", "number") for w in behind) or any(
        len(w) > 3 and "-" in w and w[-1].isdigit() for w in behind
    )
    if (runs and talk.words[i] == "on" and not (told or spelled)) or any(
        w in word_set("part_to_come") and w != "dollars" for w in talk.words[i:end]
    ):
        return None
    if talk.scopes.noun(thing.start, i) != "done":
        return None
    return Handled("replaced", "done", [thing], thing.start, i + 1, None, True)


def _came_off(talk: Talk, thing: Thing) -> bool:
    """Tell whether a part came off just before, on the way to another ("blade off. ... Blade on")."""
    return any(
        t.name == thing.name
        and thing.start - t.end < _ON_THE_WAY
        and talk.words[t.start - 1] != "old"
        and talk.words[t.end : t.end + 1] in (("off",), ("oot",), ("aff",))
        for t in talk.things[: bisect_left(talk.starts, thing.start)]
    )


_ON_THE_WAY = 90
"""Words between a part that comes off to get at another and the word that it is on again."""


def _new_i_put(talk: Talk, i: int) -> Handled | None:
    """Read "relay new I have put", the part in front of its clause: word i is "new"."""
    thing = talk.thing_over(i - 1) if i else None
    _, end = talk.scopes.sentence(i)
    if thing is None or thing.end != i:
        return None
    for k in range(i + 2, min(end, i + 5)):
        form = talk.scopes.forms.get(talk.words[k])
        if form is not None and form.verb in word_set("puts_new_one_in"):
            status = talk.scopes.verb(k)
            things = handled_parts([thing])
            return (
                Handled("replaced", status, things, thing.start, k + 1, k, True)
                if status and things
                else None
            )
    return None


def failed_before(talk: Talk, name: str, i: int) -> bool:
    """Tell whether a part of this name was said to have failed before word i."""
    return any(
        t.name == name
        and t.start < i
        and any(w in word_set("failed") or w in word_set("worn_out") for w in talk.words[t.end : t.end + 8])
        for t in talk.things
        if t.name not in part_words("no_part")
    )
