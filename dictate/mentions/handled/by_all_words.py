"""Parts that no pattern of the readers takes, by what the text encoder says of the words around their names.

    sounds_handled(talk) -> [Handled], each with its reason to look at it; what is unlike it gets one, too

Technicians tell of a new part in any way they like ("relay: new", "robbed one off the van, four screws, there
it sits"). The encoder has learned from the labelled narrations what became of each part that is named. Where
it is nearly certain that a part was handled, and no doing with that part was read, it is taken.
"""

from __future__ import annotations

from typing import cast

from dictate.mentions.handled.doing import Handled
from dictate.mentions.handled.set_apart import none_was_there
from dictate.mentions.handled.talk import Talk
from dictate.mentions.patterns import Words
from dictate.mentions.second_opinion import A_VISIT, parts_by_encoder
from dictate.mentions.tense import Status
from dictate.mentions.whose.things import Thing, things_of
from dictate.vocabulary.load import word_set

NOTHING = "nothing"
"""What became of a part to which nothing was done."""
BETWEEN = "|"
SURE = 0.45
"""A part that no reader took is taken from this share on."""
WHY = "no plain words told this: taken because of all the words around it"
UNLIKE = 0.97
"""A doing that was told without a verb is asked about where a part was left alone with this share."""
UNLIKE_IT = "the words around do not sound as if anything was done to it"


def mentions_of(words: Words) -> tuple[list[tuple[int, int]], list[Thing]]:
    """Return the parts that are named, and the tokens [start, end) of each."""
    things = things_of(words)
    return [(words.tokens[t.start], words.tokens[t.end - 1] + 1) for t in things], list(things)


def sounds_handled(talk: Talk) -> list[Handled]:
    """Return the doings with parts that only all the words together tell."""
    if len(talk.w.narration.tokens) < A_VISIT:
        return []  # the encoder is too sure of a few words
    places, things = mentions_of(talk.w)
    names, shares = parts_by_encoder(talk.w.narration, places)
    _ask(talk.out, things, [row[names.index(NOTHING)] if row else 0.0 for row in shares])
    out: list[Handled] = []
    for thing, row in zip(things, shares, strict=True):
        best = max(range(len(names)), key=row.__getitem__) if len(row) else -1
        if best < 0 or names[best] == NOTHING or row[best] < SURE:
            continue
        action, _, status = names[best].partition(BETWEEN)
        if (status == "done" and _by_others(talk, thing)) or _owns_the_next(talk, thing):
            continue
        if _only_by_the_way(talk, thing, action):
            continue
        if action in ("replaced", "installed") and status == "done" and _only_found_bad(talk, thing):
            continue
        if status == "done" and talk.scopes.framed(thing.start):
            status = "planned"  # "Friday: unsweat the old valve, braze the new one in"
        if action == "replaced" and none_was_there(talk, thing):
            action = "installed"
        if not _taken(talk, [*talk.out, *out], thing, action, status):
            out.append(Handled(action, cast(Status, status), [thing], thing.start, thing.end, None, why=WHY))
    return out


def _only_by_the_way(talk: Talk, thing: Thing, action: str) -> bool:
    """Tell whether the words beside a part speak against this doing with it.

    "Contactor slapped right in" pulled in, the old blade was put on again, and muck went down the drain.
    """
    before, behind = talk.words[max(0, thing.start - 3) : thing.start], talk.words[thing.end : thing.end + 3]
    if action == "adjusted" and (
        before[-1:] == ("the",) and before[-2:-1] in (("at",), ("by",), ("near",), ("under",), ("behind",))
    ):
        return True  # "flare at the pressure switch": it says only where
    if action == "adjusted" and thing.name.endswith("valve"):
        said = talk.words[max(0, thing.start - 4) : thing.end]
        return any(w in word_set("only_opened") for w in said) and any(
            w.startswith(("open", "clos")) for w in said
        )
    if action == "cleaned":
        start, end = talk.scopes.sentence(thing.start)
        cleared = any(w in word_set("clears_a_line") for w in talk.words[start:end])
        return thing.name == "drain line" and before[1:] == ("down", "the") and not cleared
    if thing.name.endswith(("contactor", "relay")) and behind[:1] and behind[0] in word_set("pulls_in"):
        return "in" in behind and before[-1:] not in (("new",), ("replacement",))
    return before[-1:] in (("old",), ("same",), ("original",)) and any(
        w in word_set("puts_it_on_again") for w in before
    )


def _only_found_bad(talk: Talk, thing: Thing) -> bool:
    """Tell whether a part is only said to be bad: "bad fan motor, locked up", and no word of another one."""
    before = talk.words[max(0, thing.start - 2) : thing.start]
    if word_set("called_bad").isdisjoint(before):
        return False
    number = talk.w.sentence_of[thing.start]
    start = talk.w.sentences[number][0]
    end = talk.w.sentences[min(len(talk.w.sentences) - 1, number + 2)][1]
    return word_set("tells_of_another_one").isdisjoint(talk.words[start:end])


def _owns_the_next(talk: Talk, thing: Thing) -> bool:
    """Tell whether a part only says whose the next one is ("coil 3's honeycomb I vacuumed")."""
    k = thing.end + (talk.words[thing.end : thing.end + 1] != () and talk.words[thing.end][:1].isdigit())
    return talk.words[k : k + 1] == ("'s",) and talk.thing_from(k + 1) is not None


def _by_others(talk: Talk, thing: Thing) -> bool:
    """Tell whether it was somebody else's work ("cap swapped by the last outfit two weeks back")."""
    told = talk.words[thing.end : thing.end + 5]
    k = told.index("by") if "by" in told else 0
    if (
        not k
        or any(w in (",", ".") for w in told[:k])
        or told[k + 1 : k + 2] in (("me",), ("hand",), ("us",))
    ):
        return False
    worked = talk.scopes.kind(thing.end + k - 1) == "past"
    return worked and any(w in word_set("of_former_people") for w in talk.words[thing.end + k :][:5])


def _ask(doings: list[Handled], things: list[Thing], left_alone: list[float]) -> None:
    """Give the doings without a verb a reason where the words around their parts tell of none."""
    share = dict(zip(things, left_alone, strict=True))
    for h in doings:
        told_plainly = h.verb is not None or not h.things or h.why is not None
        if not told_plainly and min(share.get(thing, 0.0) for thing in h.things) > UNLIKE:
            h.why = UNLIKE_IT


def _taken(talk: Talk, doings: list[Handled], thing: Thing, action: str, status: str) -> bool:
    """Tell whether a doing with a part of that name, or one that it may stand for, was read."""
    for h in doings:
        for other in h.things:
            if other is thing or (thing.start < other.end and other.start < thing.end):
                return True
            if status == "done" and _long_before(talk, thing, h):
                continue  # put in here, and another one is announced sentences later
            if _alike(other, thing) and (h.action == action or h.status == "done"):
                return True
    return False


def _long_before(talk: Talk, thing: Thing, h: Handled) -> bool:
    """Tell whether a part is named sentences before the plan for another like it ("new motor's coming")."""
    announced = h.status == "planned" and h.verb is None and h.pronoun
    return announced and talk.w.sentence_of[h.start] - talk.w.sentence_of[thing.start] > 1


def _alike(a: Thing, b: Thing) -> bool:
    """Tell whether two names may be of one part: the same one, or a single word that ends the other."""
    short = any(t.generic or t.end - t.start == 1 for t in (a, b))
    return a.part == b.part or (short and a.part.split()[-1] == b.part.split()[-1])


__all__ = ["BETWEEN", "NOTHING", "SURE", "WHY", "mentions_of", "sounds_handled"]
