"""Parts that came out, told by where they lie now, or by what was seen when they did.

"Motor's out and lying on the tailgate."  "I pulled the right one and it's split wide, so that's out."
"""

from __future__ import annotations

from dataclasses import replace

from dictate.mentions.handled.doing import Handled, handled_parts
from dictate.mentions.handled.objects import objects_behind
from dictate.mentions.handled.referents import part_meant
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import DETERMINERS
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set

_OUT = ("out", "off")


def taken_out(talk: Talk) -> list[Handled]:
    """Return the parts of which these frames tell that they were taken out."""
    out: list[Handled] = []
    for i, word in enumerate(talk.words):
        made = None
        if word in _OUT and talk.words[i - 1] in ("'s", "is", "are"):
            made = _lies_somewhere(talk, i) or _seen_and_out(talk, i)
        if made is not None:
            out.append(made)
    return out


def _made(talk: Talk, thing: Thing | None, start: int, end: int) -> Handled | None:
    """Return the removal, unless it is somebody else's, only a condition, or no part of the machine."""
    if thing is None or not handled_parts([thing]) or thing.modifier:
        return None
    if talk.scopes.conditional(end - 1) or talk.scopes.framed(end - 1):
        return None
    if thing.generic and thing.part != talk.words[thing.start]:
        thing = replace(thing, generic=False)  # which motor it is was told before
    return Handled("removed", "done", [thing], start, end, None)


def _lies_somewhere(talk: Talk, i: int) -> Handled | None:
    """Read "motor's out and lying on the tailgate", "the heater's out and in my truck": word i is "out"."""
    start, end = talk.scopes.sentence(i)
    thing = talk.thing_over(i - 2) if i - 2 >= start else None
    if thing is None or thing.end != i - 1:
        return None
    j = thing.start
    while j > start and talk.words[j - 1] in DETERMINERS | {"old", "dead", "bad", "burnt"}:
        j -= 1
    if j > start and talk.words[j - 1] not in (",", "and", "so", "but", ";"):
        return None
    behind = talk.words[i + 1 : min(end, i + 10)]
    if not _leads_on(behind) or not _at_a_place(behind):
        return None
    return _made(talk, thing, thing.start, i + 1)


def _at_a_place(behind: tuple[str, ...]) -> bool:
    """Tell whether a place where it lies is told: "lying on the tailgate", "in my truck"."""
    where = {"in", "on", "into", "for"}
    return any(
        w in word_set("lies_there") and not where.isdisjoint(behind[max(0, k - 3) : k])
        for k, w in enumerate(behind)
    )


def _leads_on(behind: tuple[str, ...]) -> bool:
    return behind[:1] in (("and",), (",",), ("on",), ("in",), ("of",))


def _seen_and_out(talk: Talk, i: int) -> Handled | None:
    """Read "pulled the blower motor and it's cracked through, so that's out": word i is "out"."""
    start, end = talk.scopes.sentence(i)
    if talk.words[i - 2] not in ("that", "it", "they") or talk.words[i - 3] not in ("so", "and", ","):
        return None
    if i + 1 < end and talk.words[i + 1] not in (".", ",", "and", "of", ";"):
        return None
    for k in range(start, i - 3):
        form = talk.scopes.forms.get(talk.words[k])
        if form is None or form.kind != "past" or form.verb not in word_set("takes_old_out") | {"yank"}:
            continue
        if talk.scopes.verb(k) != "done":
            continue
        things, _, _, pronoun, _ = objects_behind(talk, k + 1, i, "removed")
        named = [t for t in things if not t.modifier]
        if not named and pronoun:
            meant = part_meant(talk, k, "replaced")
            named = [meant] if meant is not None else []
        if named:
            return _made(talk, named[0], k, i + 1)
    return None
