"""Parts that were found dirty and left so: looked at, and not cleaned.

"Had a look at the coil, it's filthy, haven't touched it."  "Condenser could use a bath, I left it."
"""

from __future__ import annotations

from dictate.mentions.handled.doing import Handled
from dictate.mentions.handled.talk import Talk
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set

_NOTS = frozenset(("not", "haven't", "hasn't", "didn't", "never", "havenae", "ain't", "won't"))
_IT = frozenset(("it", "that", "them", "those", "her", "him", "this"))
_COILS = frozenset(("coil", "condenser", "evaporator", "condenser coil", "evaporator coil"))
_BEHIND_LEFT = frozenset((".", ",", ";", "be", "alone", "so", "there", "for", "today", "dirty", "as", "and"))


def not_touched(talk: Talk) -> list[Handled]:
    """Return the cleanings that were needed, and that the speaker says he did not do."""
    out: list[Handled] = []
    covered = {t.name for h in talk.out if h.action == "cleaned" for t in h.things}
    for i, word in enumerate(talk.words):
        if not (_untouched(talk, i) if word in word_set("lays_a_hand_on") else _left(talk, i)):
            continue
        thing = _dirty_one(talk, i)
        if thing is None or thing.name in covered or talk.scopes.conditional(i):
            continue
        out.append(Handled("cleaned", "not_done", [thing], thing.start, i + 1, None, False, pronoun=True))
        covered.add(thing.name)
    return out


def _untouched(talk: Talk, i: int) -> bool:
    """Tell whether the speaker did not lay a hand on it: "haven't touched it", "didn't mess with that"."""
    start, _ = talk.scopes.sentence(i)
    before = talk.words[max(start, i - 4) : i]
    if _NOTS.isdisjoint(before) or any(w in ("he", "she", "they", "you", "nobody") for w in before):
        return False
    if talk.words[i] in ("get", "got", "gotten") and talk.words[i + 1 : i + 2] != ("to",):
        return False  # "didn't get to it": and not "didn't get it clean"
    behind = [w for w in talk.words[i + 1 : i + 4] if w not in ("with", "to", "at")]
    return behind[:1] != [] and behind[0] in _IT


def _left(talk: Talk, i: int) -> bool:
    """Tell whether the speaker left it as it was: "I left it.", "so I let that be"."""
    if talk.words[i] not in ("left", "let") or talk.words[i - 1] not in (
        "i",
        "i've",
        "we",
        "we've",
        "just",
        ",",
    ):
        return False
    behind = talk.words[i + 1 : i + 3]
    return behind[:1] != () and behind[0] in _IT and behind[1:2] != () and behind[1] in _BEHIND_LEFT


def _dirty_one(talk: Talk, i: int) -> Thing | None:
    """Return the part told of last before word i, in its sentence or the one before, if it is dirty."""
    number = talk.w.sentence_of[i]
    first = talk.w.sentences[max(0, number - 1)][0]
    named = [t for t in talk.things if first <= t.start < i and not t.modifier]
    thing = named[-1] if named else None
    if (
        thing is None
        or thing.name not in word_set("washed_parts")
        or (thing.generic and thing.name not in _COILS)
    ):
        return None
    told = talk.words[thing.end : i]
    return None if word_set("calls_it_dirty").isdisjoint(told) else thing
