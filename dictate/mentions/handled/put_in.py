"""A part that was put in, and the part that a sentence opens with."""

from __future__ import annotations

from dictate.mentions.handled.doing import Handled, handled_parts
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import part_words
from dictate.mentions.tense.plans import comes_another_day
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set


def put_in(talk: Talk, things: list[Thing], start: int, end: int, *, pronoun: bool = False) -> Handled | None:
    """Return the replacement, unless the words around make it a plan, a condition or somebody else's."""
    things = handled_parts(things)
    if not things or not talk.scopes.ours(start) or talk.scopes.conditional(start):
        return None
    if talk.scopes.framed(start) or talk.scopes.advised(start):
        return None
    added = all(t.part in part_words("added") for t in things)
    return Handled(
        "installed" if added else "replaced", "done", things, start, end, None, True, pronoun=pronoun
    )


def opening_part(talk: Talk, start: int, end: int) -> Thing | None:
    """Return the part that a sentence opens with, small words and ratings aside."""
    k = start
    while k < end and talk.words[k] in word_set("ellipsis_openers") | word_set("before_part_in_place"):
        k += 1
    thing = next((t for t in talk.things if k <= t.start < min(end, k + 6)), None)
    if thing is None or thing.modifier:
        return None
    verbs = any(talk.scopes.kind(j) in ("past", "third", "base") for j in range(k, thing.start))
    return None if verbs else thing


def goes_another_day(talk: Talk, made: Handled) -> bool:
    """Tell whether what was said behind a part puts it off: "new compressor | goes in Thursday"."""
    return (
        made.status == "done"
        and talk.words[made.end : made.end + 1] in (("goes",), ("go",), ("gets",))
        and comes_another_day(talk.scopes, made.end)
    )
