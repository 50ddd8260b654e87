"""Whether what was put in is a new part or the old one put back."""

from __future__ import annotations

from bisect import bisect_left

from dictate.mentions.handled.doing import Handled
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import part_words
from dictate.mentions.patterns import NUMBER_WORDS, Hit
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set


def named_as_any(talk: Talk, hit: Hit, things: list[Thing], last: int, end: int) -> bool:
    """Tell whether "a contactor", "three fuses" is put in: a part that was not there is a new one."""
    if not things or hit.line.startswith(("add!", "reinstall!", "hook!")):
        return False
    if hit.line == "set!" and talk.words[last : last + 1] != ("in",):
        return False
    first = things[0]
    head = talk.words[hit.end - 1 if "~" not in hit.line else hit.start + 1 : first.start]
    if not head or any(w in ("the", "my", "its", "that", "this", "both", "all", "back", "old") for w in head):
        return False
    if not any(w in ("a", "an") or w in NUMBER_WORDS or w[0].isdigit() for w in head):
        return False
    if any(t.name in part_words("no_part") and t.name not in part_words("switchgear") for t in things):
        return False
    if first.part in part_words("added") and talk.words[last : last + 1] in (("on",), ("in",), ("at",)):
        return True  # "put an access valve on the process tube"
    if first.name == "fuse" and any(w in ("amp", "amps") for w in head):
        return True  # "put a 3 amp fuse in the R leg"
    if talk.words[first.start] in word_set("put_on_to_test"):
        return False  # "put a clamp on it"
    if any(t.generic for t in things[:2]):
        return closes_in(talk.words[last : min(last + 2, end)])  # "put a relay in it"
    if talk.words[hit.start] not in word_set("needs_new"):
        return True
    if "in" in talk.words[hit.start + 1 : hit.end]:
        return True
    after = talk.words[last : min(last + 2, end)]
    return closes_in(after)


def closes_in(after: tuple[str, ...]) -> bool:
    """Tell whether the words behind a part put it in its place and end there ("... in.", "... on it")."""
    return after[:1] in (("in",), ("on",)) and after[1:] in (
        (),
        (".",),
        (",",),
        ("and",),
        ("it",),
        ("her",),
        ("them",),
        ("there",),
        ("place",),
        ("instead",),
        ("while",),
        ("too",),
        ("as",),
        ("since",),
        ("because",),
        ("also",),
        ("today",),
        ("with",),
        ("for",),
        ("on",),
        ("at",),
    )


def put_where_one_failed(talk: Talk, hit: Hit, things: list[Thing], last: int, end: int) -> bool:
    """Tell whether "put the relay in" is a new one: one of its name had failed, or it came from a kit."""
    told = talk.words[hit.start : min(end, last + 2)]
    fits = hit.line in ("fit!", "install!", "mount!")
    if "back" in told or not (fits or any(w in ("in", "on") for w in told)):
        return False
    things = [t for t in things if t.name not in part_words("no_part")]
    names = {t.name for t in things}
    if not things or any(t.generic for t in things):
        return False
    if any(w in word_set("supply_signs") and w not in ("set", "box") for w in talk.words[last:end]):
        return True
    return any(
        t.name in names
        and any(w in word_set("failed") or w in word_set("worn_out") for w in talk.words[t.end : t.end + 8])
        and hit.start - t.start < 250
        for t in talk.things[: bisect_left(talk.starts, hit.start)]
    )


def came_from_supply(talk: Talk, thing: Thing, verb: int) -> bool:
    """Tell whether the part that a pronoun stands for was told of as one from the van or a shop."""
    start, _ = talk.scopes.sentence(thing.start)
    told = talk.words[start:verb]
    return any(
        w in word_set("supply_signs") and (w != "set" or told[k - 1] == "a") for k, w in enumerate(told)
    )


def stood_before(talk: Talk, thing: Thing, h: Handled) -> bool:
    """Tell whether a part that is often added was told of before: what goes in then takes its place.

    "The crankcase heater reads open ... new crankcase heater" replaces one; what was added, or was not there
    before ("no crankcase heater on it"), does not.
    """
    if h.verb is not None and talk.words[h.verb].startswith("add"):
        return False
    for other in talk.things[: bisect_left(talk.starts, h.start)]:
        if other.name == thing.name and thing.name in word_set("measured_additions"):
            before = talk.words[max(0, other.start - 4) : other.start]
            if not any(w in ("no", "without", "never", "a", "add", "needs", "need") for w in before):
                return True
    return False
