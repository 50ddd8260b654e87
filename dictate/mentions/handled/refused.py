"""Parts that were offered and refused: "quoted them an actuator, they said no"."""

from __future__ import annotations

from dictate.mentions.handled.doing import Handled
from dictate.mentions.handled.objects import objects_behind
from dictate.mentions.handled.referents import part_meant
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import part_words
from dictate.vocabulary.load import word_set

REACH = 16
"""How many words behind the offer the refusal is told at most."""


def refused(talk: Talk) -> list[Handled]:
    """Return the parts offered that the customer would not have, as not replaced."""
    out: list[Handled] = []
    offers = word_set("offers_a_part")
    if offers.isdisjoint(talk.words):
        return _washing_refused(talk)
    handled = {t.name for h in talk.out for t in h.things if h.action in ("replaced", "installed")}
    for i, word in enumerate(talk.words):
        if word not in offers:
            continue
        _, end = talk.scopes.sentence(i)
        number = talk.w.sentence_of[i]
        last = talk.w.sentences[min(len(talk.w.sentences) - 1, number + 1)][1]
        k = i + 1
        while k < end and talk.words[k] in word_set("told_an_offer"):
            k += 1
        things, _, behind, _, _ = objects_behind(talk, k, end, "replaced")
        things = [t for t in things if t.name not in part_words("no_part") and t.name not in handled]
        if not things or not _says_no(talk, behind, min(last, behind + REACH)):
            continue
        out.append(Handled("replaced", "not_done", things, i, behind, i, True))
    return out + _washing_refused(talk)


def turned_down(talk: Talk) -> list[Handled]:
    """Return the parts that somebody would not have: "the owner refused a new gasket"."""
    out: list[Handled] = []
    handled = {t.name for h in talk.out for t in h.things if h.action in ("replaced", "installed")}
    for i in range(1, len(talk.words)):
        n = talk.scopes.begins_with(i, "lists", "turns_down")
        if not n or talk.words[i - 1] in _OURS or talk.words[i - 1] in ("not", "never", "didn't", "and"):
            continue
        _, end = talk.scopes.sentence(i)
        things, new, behind, _, _ = objects_behind(talk, i + n, end, "replaced")
        things = [t for t in things if t.name not in part_words("no_part") and t.name not in handled]
        if not things or (behind < end and talk.words[behind] not in word_set("behind_a_listed_part")):
            continue
        if new or not any(t.name in word_set("washed_parts") for t in things):
            out.append(Handled("replaced", "not_done", things, i, behind, None, True))
    return out


_OURS = ("i", "we", "i've", "we've", "i'd", "we'd")


def _washing_refused(talk: Talk) -> list[Handled]:
    """Read "offered to wash it, lady said her nephew does it": what was wanted of us is not done."""
    out: list[Handled] = []
    for i, word in enumerate(talk.words):
        if (
            word not in ("offered", "wanted")
            or talk.words[i + 1 : i + 2] != ("to",)
            or i + 3 >= len(talk.words)
        ):
            continue
        if talk.words[i + 2] not in word_set("washing_verbs") or not _mine(talk, i):
            continue
        _, end = talk.scopes.sentence(i)
        number = talk.w.sentence_of[i]
        last = talk.w.sentences[min(len(talk.w.sentences) - 1, number + 1)][1]
        things, _, behind, pronoun, _ = objects_behind(talk, i + 3, end, "cleaned")
        if not things and pronoun:
            meant = part_meant(talk, i + 2, "cleaned")
            things = [meant] if meant is not None else []
        if not things or not _says_no(talk, behind, min(last, behind + REACH)):
            continue
        talk.out[:] = [
            h
            for h in talk.out
            if not (h.action == "cleaned" and h.status == "planned" and i <= h.start <= behind)
        ]
        out.append(Handled("cleaned", "not_done", things, i, behind, None, False, pronoun=pronoun))
    return out


def _mine(talk: Talk, i: int) -> bool:
    """Tell whether the speaker offers: "I offered", "Offered"."""
    start, _ = talk.scopes.sentence(i)
    return i == start or talk.words[i - 1] in (*_OURS, "and", "but", ",", "also", "even")


def _says_no(talk: Talk, k: int, last: int) -> bool:
    """Tell whether a refusal stands in the words [k, last)."""
    row = talk.words[k:last]
    return any(row[j : j + len(p)] == p for p in _refusals() for j in range(len(row)))


def _refusals() -> list[tuple[str, ...]]:
    return [tuple(p.split()) for p in word_set("refusals")]
