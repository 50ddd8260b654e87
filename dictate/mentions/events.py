"""What the machine did, in the order in which it was said: `find_events(narration) -> list[Event]`.

"It tripped", "compressor started right up", "went into harvest": what a machine does by itself or when it
is switched on, not what the technician did to it. Guesses, conditions and hearsay are left out of nothing
here: an event is told as said, and a customer's account of it counts, but a condition ("if it trips
again") does not.
"""

from __future__ import annotations

from functools import cache

from dictate.mentions.narration import Narration
from dictate.mentions.patterns import Matcher, Words, compile_pattern, longest, words_of
from dictate.mentions.tense import Scopes, scopes_of
from dictate.mentions.whose.things import Thing, things_of
from dictate.record.visit import Event
from dictate.vocabulary.load import table, word_set

_ACTORS = word_set("actors")


@cache
def _matcher() -> Matcher:
    return Matcher(compile_pattern(e["event"], line) for e in table("events")["event"] for line in e["said"])


def find_events(narration: Narration) -> list[Event]:
    """Return the events in order; the same event of the same part twice in a sentence is one."""
    words = words_of(narration)
    scopes = scopes_of(words)
    out: list[Event] = []
    taken: list[tuple[int, int]] = []
    last: tuple[str, str | None, int] | None = None
    for hit in sorted(longest(_matcher().hits(words)), key=lambda h: (h.start, h.start - h.end)):
        if any(a < hit.end and hit.start < b for a, b in taken):
            continue
        if scopes.conditional(hit.start) or _planned(words, scopes, hit.start):
            continue
        if hit.label in ("started", "energised", "shut off", "opened", "closed") and not _by_itself(
            words, scopes, hit.start
        ):
            continue
        component = _actor(words, things_of(words), hit.start)
        key = (hit.label, component, words.sentence_of[hit.start])
        if key == last:
            continue
        last = key
        start, end = words.span(hit.start, hit.end)
        out.append(
            Event(
                event=hit.label,
                component=component,
                at=narration.at(start, end),
                heard=narration.heard(start, end),
            )
        )
        taken.append((hit.start, hit.end))
    return out


def _planned(words: Words, scopes: Scopes, i: int) -> bool:
    start, _ = scopes.sentence(i)
    before = words.words[max(start, i - 4) : i]
    return any(w in word_set("event_denied") for w in before[-3:])


def _by_itself(words: Words, scopes: Scopes, i: int) -> bool:
    """Tell whether the machine is the subject, and not the technician ("I started at nine")."""
    start, _ = scopes.sentence(i)
    row = words.words
    k = scopes.skip_back(i - 1, start)
    if k < start:
        nxt = row[i + 1 : i + 3]
        return not (
            nxt[:1] and (nxt[0] in ("at", "with", "by", "the", "a", "my", "it", "on") or nxt[0][:1].isdigit())
        )
    return row[k] not in ("i", "we", "i've", "we've", "and", ",", "then") or (
        row[k] in ("and", ",", "then")
        and any(
            row[j] in ("it", "compressor", "fan", "machine", "unit", "she")
            for j in range(max(start, k - 8), k)
        )
    )


def _actor(words: Words, things: list[Thing], i: int) -> str | None:
    """Return the part that did it: the last one named before in the sentence, if it can act."""
    start, _ = words.sentences[words.sentence_of[i]]
    before = [t for t in things if start <= t.start and t.end <= i and i - t.end <= 8 and not t.modifier]
    for thing in reversed(before):
        if any(a in thing.name for a in _ACTORS):
            return thing.name
    return None
