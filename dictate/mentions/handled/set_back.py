"""Settings that had been moved on another day and stand where they belong again.

"The high pressure switch I'd run up to four ten last week, that's back at three eighty-five."
"""

from __future__ import annotations

from dictate.mentions.handled.doing import Handled
from dictate.mentions.handled.put_in import opening_part
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import ADJUSTABLE
from dictate.mentions.patterns import NUMBER_WORDS
from dictate.vocabulary.load import word_set


def set_back(talk: Talk) -> list[Handled]:
    """Return the adjustments that such a frame tells, where no other words told them."""
    out: list[Handled] = []
    told = {t.name for h in talk.out if h.action == "adjusted" and h.status == "done" for t in h.things}
    for i in talk.w.starting(frozenset({"back"})):
        start, end = talk.scopes.sentence(i)
        if talk.words[i - 1] not in ("'s", "is", "are") or talk.words[i + 1 : i + 2] == ():
            continue
        if talk.words[i + 1] not in ("at", "to", "on", "where", "down", "up"):
            continue
        thing = opening_part(talk, start, i)
        if thing is None or thing.name in told or not any(a in thing.name for a in ADJUSTABLE):
            continue
        moved = talk.words[thing.end : i - 1]
        had = any(w in ("i'd", "we'd", "i", "we", "had", "he'd", "she'd", "they'd") for w in moved[:2])
        if not had or (word_set("stage_by_hand", "reading_words") | {"run"}).isdisjoint(moved):
            continue
        row = talk.words[i + 1 : min(end, i + 5)]
        number = any(w in NUMBER_WORDS or w[:1].isdigit() for w in row)
        if (number or "where" in row) and not talk.scopes.conditional(i):
            out.append(Handled("adjusted", "done", [thing], thing.start, i + 1, None, False))
    return out
