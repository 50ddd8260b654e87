"""Parts that the technician will come back with: planned replacements.

"I'll bring a motor Thursday."  "I'll come back Monday with it."  "Needs a second trip for the heater."
"""

from __future__ import annotations

from dictate.mentions.handled.doing import Handled, handled_parts
from dictate.mentions.handled.objects import objects_behind
from dictate.mentions.handled.referents import part_meant
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import part_words
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set


def to_bring(talk: Talk) -> list[Handled]:
    """Return the parts that will be brought on a later day."""
    out: list[Handled] = []
    covered = [(h.start, h.end) for h in talk.out]
    comes, trips = word_set("comes_back_words"), word_set("trip_words")
    for i, word in enumerate(talk.words):
        if word in ("bring", "bringing"):
            first = i + 1 if talk.scopes.verb(i) == "planned" else None
        elif (word in comes and i and talk.words[i - 1] in word_set("before_back")) or (
            word in trips and any(w in word_set("before_trip") for w in talk.words[max(0, i - 4) : i])
        ):
            first = _with_what(talk, i)
        else:
            continue
        if first is None or any(a <= i < b for a, b in covered):
            continue
        told = talk.words[max(0, i - 3) : i]
        if any(w in ("he'll", "she'll", "they'll", "he", "she", "they") for w in told):
            continue
        if not talk.scopes.ours(i) or talk.scopes.conditional(i) or talk.scopes.advised(i):
            continue
        things, last = _brought(talk, i, first)
        if things:
            out.append(Handled("replaced", "planned", things, i, last, None, True))
            covered.append((i, last))
    return out


def _with_what(talk: Talk, i: int) -> int | None:
    """Return the word behind "with" or "for" of "come back Monday with it"."""
    _, end = talk.scopes.sentence(i)
    for k in range(i + 1, min(end - 1, i + 6)):
        if talk.words[k] in ("with", "for"):
            return k + 1
        if talk.words[k] in (",", "and", "but") or talk.scopes.kind(k) is not None:
            return None
    return None


def _brought(talk: Talk, i: int, first: int) -> tuple[list[Thing], int]:
    _, end = talk.scopes.sentence(i)
    if any(w in word_set("own_tools") for w in talk.words[first : first + 4]):
        return [], first
    things, _, last, pronoun, _ = objects_behind(talk, first, end, "replaced")
    things = [t for t in handled_parts(things) if t.name not in part_words("no_part")]
    if talk.words[last : last + 1] in tuple((w,) for w in word_set("looked_at_then")):
        return [], first  # "back in six months for a bearing inspection"
    if not things and any(w in ("cap", "caps") for w in talk.words[max(0, i - 16) : i]):
        return [], first  # "I had no caps for the ports, I'll bring two Thursday"
    one = talk.words[first : first + 1] in (("one",), ("it",), ("that",), ("them",), ("those",), ("two",))
    if not things and (pronoun or one):
        meant = part_meant(talk, i, "replaced")
        things, last = ([meant] if meant is not None and not meant.modifier else []), first + 1
    return things, last
