"""Parts that were offered and refused: "quoted them an actuator, they said no"."""

from __future__ import annotations

from dictate.mentions.handled.doing import Handled
from dictate.mentions.handled.objects import objects_behind
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
        return out
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
    return out


def _says_no(talk: Talk, k: int, last: int) -> bool:
    """Tell whether a refusal stands in the words [k, last)."""
    row = talk.words[k:last]
    return any(row[j : j + len(p)] == p for p in _refusals() for j in range(len(row)))


def _refusals() -> list[tuple[str, ...]]:
    return [tuple(p.split()) for p in word_set("refusals")]
