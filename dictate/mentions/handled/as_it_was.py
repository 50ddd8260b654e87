"""Doings after which a part is as it was: fastened again, put back, only begun, or of another day.

"I started unbolting it, then the lunch line showed up, so I snugged it back down."
"Rinsed it and set it right back in, same pump."  "Condenser I brushed back in October and it's clean yet."
"""

from __future__ import annotations

from dictate.mentions.handled.doing import Handled
from dictate.mentions.handled.talk import Talk
from dictate.mentions.patterns import Words
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set

_FASTENS = ("snug", "tighten", "nip", "bolt", "screw", "strap", "clamp", "clip")
_CLAUSE = 8
"""Words behind a part in which the day of a cleaning, or that it was only looked at, is told."""


def is_as_it_was(talk: Talk, h: Handled) -> bool:
    """Tell whether nothing is changed by a doing, or nothing was done today."""
    if h.status != "done":
        return False
    if h.action == "adjusted":
        if h.verb is None:
            _, end = talk.scopes.sentence(h.start)
            return any(fastened_again(talk.w, k) for k in range(h.start, end))
        return fastened_again(talk.w, h.verb) or _set_in_place(talk, h.verb)
    if h.action in ("replaced", "installed"):
        return bool(h.things) and (_same_went_back(talk, h) or _caps_of_ports(talk, h.things[0]))
    if h.action == "cleaned" and h.verb is None and h.things:
        return any(
            f(talk, h.things[0]) for f in (_of_another_day, _only_looked_at, _only_begun, _under_another)
        )
    return False


def fastened_again(words: Words, i: int) -> bool:
    """Tell whether word i only does up what was begun to be undone: "snugged it back down"."""
    row = words.words
    if not row[i].startswith(_FASTENS) or "back" not in row[i + 1 : i + 4]:
        return False
    start, _ = words.sentences[max(0, words.sentence_of[i] - 1)]
    told = row[start:i]
    undone = any(
        w in ("bolts", "bolt", "screws", "screw", "nuts", "nut")
        and told[k + 1 : k + 2] in (("out",), ("off",), ("undone",))
        for k, w in enumerate(told)
    )
    begun = any(
        w in word_set("begins_work") and told[k - 1 : k] in (("i",), ("we",), ("had",), (",",), ())
        for k, w in enumerate(told)
    )
    return undone or begun


def _set_in_place(talk: Talk, verb: int) -> bool:
    """Tell whether something was set in its place again and no value set: "set it right back in"."""
    if not talk.words[verb].startswith("set"):
        return False
    row = talk.words[verb + 1 : verb + 6]
    back = next((k for k, w in enumerate(row) if w == "back"), None)
    if back is None or row[back + 1 : back + 2] not in (("in",), ("on",)):
        return False
    return row[back + 2 : back + 3] in (("",), (".",), (",",), ("and",), ("there",), ("place",), ("it",))


def _same_went_back(talk: Talk, h: Handled) -> bool:
    """Tell whether what went in is what came out: "back in it went, same pump"."""
    if talk.words[h.start : h.end] == ("in", "it", "went") and talk.words[h.start - 1 : h.start] == ("back",):
        return True
    _, end = talk.scopes.sentence(h.end - 1)
    row = talk.words[h.end : min(end, h.end + 5)]
    same = next((k for k, w in enumerate(row) if w == "same"), None)
    if same is None or same > 2 or (h.new and "new" in talk.words[max(0, h.start - 3) : h.end]):
        return False
    name = talk.words[h.things[0].end - 1]
    return row[same + 1 : same + 2] in ((name,), ("one",)) and row[same + 2 : same + 3] in (
        (".",),
        (",",),
        (),
    )


def _caps_of_ports(talk: Talk, thing: Thing) -> bool:
    """Tell whether caps that were missing are meant, which no capacitors are: "both caps were missing"."""
    row = talk.words[thing.end : thing.end + 2]
    said = talk.words[thing.end - 1] in ("cap", "caps") and thing.end - thing.start == 1
    return (
        said and row[:1] in (("was",), ("were",), ("is",), ("are",)) and row[1:] in (("missing",), ("gone",))
    )


def _behind(talk: Talk, thing: Thing) -> tuple[str, ...]:
    _, end = talk.scopes.sentence(thing.start)
    return talk.words[thing.end : min(end, thing.end + _CLAUSE)]


def _of_another_day(talk: Talk, thing: Thing) -> bool:
    """Tell whether a cleaning was of a day gone by: "I brushed back in October", "I washed last spring"."""
    row = _behind(talk, thing)
    if "today" in row or "now" in row:
        return False
    verb = next((k for k, w in enumerate(row) if w in word_set("cleaned_words") | {"did", "done"}), None)
    return verb is not None and not word_set("times_gone").isdisjoint(row[verb + 1 : verb + 5])


def _only_looked_at(talk: Talk, thing: Thing) -> bool:
    """Tell whether a part was only looked at: "the condenser itself I peeked at, it's not bad"."""
    start, end = talk.scopes.sentence(thing.start)
    if not word_set("cleaned_words").isdisjoint(talk.words[start:end]):
        return False
    return not word_set("only_looks").isdisjoint(_behind(talk, thing)[:4])


def _only_begun(talk: Talk, thing: Thing) -> bool:
    """Tell whether a cleaning was begun and given up: "I began brushing the coil, ... and quit"."""
    start, end = talk.scopes.sentence(thing.start)
    before, behind = talk.words[max(start, thing.start - 4) : thing.start], talk.words[thing.end : end]
    if word_set("begins_work").isdisjoint(before) or not {"finally", "again", "finished"}.isdisjoint(behind):
        return False
    quits = any(
        behind[k : k + 2] in (("gave", "up"), ("had", "to"), ("gave", "it")) for k in range(len(behind))
    )
    return quits or not {"quit", "stopped", "abandoned"}.isdisjoint(behind)


def _under_another(talk: Talk, thing: Thing) -> bool:
    """Tell whether a part only says where the one before it sits: "fan on the condenser had lint on it"."""
    k = thing.start - 1
    if talk.words[k] != "the" or talk.words[k - 1] not in ("on", "of", "over", "under"):
        return False
    other = talk.thing_over(k - 2) if k > 1 else None
    return other is not None and other.end == k - 1
