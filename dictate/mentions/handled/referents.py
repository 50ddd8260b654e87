"""The part that "it", "one", a bare rating or nothing at all stands for."""

from __future__ import annotations

from bisect import bisect_left

from dictate.mentions.handled.rows import only_a_size, only_numbers
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import ADJUSTABLE, DETERMINERS, part_words
from dictate.mentions.patterns import NUMBER_WORDS, Hit
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set


def part_meant(talk: Talk, verb: int, action: str) -> Thing | None:
    """Return the part that "it" or "one" stands for: the last one named that can be handled, or the job's."""
    if _written_down(talk, verb):
        return None
    meant = _last_named(talk, verb, action)
    if meant is None and action == "replaced" and talk.words[verb : verb + 2] == ("new", "one"):
        jobs = word_set("change_nouns") | {"job", "change"}
        return next(
            (
                t
                for t in talk.things
                if t.start < verb and talk.words[t.end : t.end + 1] and talk.words[t.end] in jobs
            ),
            None,
        )  # "second day of the compressor job. ... Old one out, new one in"
    return meant


def _written_down(talk: Talk, verb: int) -> bool:
    """Tell whether "put that in your report", "wrote it on the ticket" speaks of no part."""
    behind = talk.words[verb + 1 : verb + 7]
    if behind[:1] not in (("it",), ("that",), ("this",), ("them",)):
        return False
    where = [w for w in behind[1:] if w not in DETERMINERS and w not in ("down", "all", "your")]
    return where[:1] in (["in"], ["on"], ["into"]) and where[1:2] != [] and where[1] in word_set("written_in")


def _last_named(talk: Talk, verb: int, action: str) -> Thing | None:
    """Return the last part named before the verb that can be handled."""
    sentence = talk.w.sentence_of[verb]
    told = _told_by_pronoun(talk, verb)
    if told is not None and action in ("replaced", "installed"):
        return told
    if action in ("replaced", "installed") and (fault := _the_fault(talk, verb)) is not None:
        return fault
    reach = 4 if action in ("cleaned", "replaced", "installed") else 2
    k = bisect_left(talk.starts, verb) - 1
    while k >= 0:
        thing = talk.things[k]
        if sentence - talk.w.sentence_of[thing.start] > reach:
            return None
        if thing.name == "hose" and action == "replaced" and sentence - talk.w.sentence_of[thing.start] <= 1:
            return None  # "my hose was the problem, changed it"
        failed = thing.name == "pump" and any(
            w in word_set("pump_failed") for w in talk.words[thing.end : thing.end + 4]
        )
        usual = failed or thing.name not in part_words("no_part")
        usual = usual or (thing.name == "fuse" and action == "replaced")
        if thing.name == "bolt" or (talk.words[thing.start] == "coil" and only_a_size(talk, thing)):
            k -= 1
            continue
        if no_part_here(talk, thing) or _only_runs(talk, thing):
            k -= 1
            continue
        if action != "adjusted" and _only_shut(talk, thing):
            k -= 1
            continue
        if not thing.modifier and usual and not only_a_place(talk, thing):
            if (
                thing.name in part_words("piece_of_another")
                and k > 0
                and talk.w.sentence_of[talk.things[k - 1].start] == talk.w.sentence_of[thing.start]
                and action != "cleaned"
            ):
                k -= 1
                continue
            if action == "cleaned" and thing.name not in part_words("cleanable"):
                k -= 1
                continue
            if talk.words[thing.end : thing.end + 1] in (("side",), ("leg",), ("section",)):
                k -= 1  # "the compressor side was forty one"
                continue
            if (
                action == "replaced"
                and thing.name == "drain pan"
                and talk.w.sentence_of[thing.start] != sentence
            ):
                k -= 1
                continue
            if action == "cleaned" and _kept_dry(talk, thing, verb):
                k -= 1
                continue
            if action != "cleaned" and thing.name in part_words("seldom_it"):
                k -= 1
                continue
            if action == "adjusted" and not any(a in thing.name for a in ADJUSTABLE):
                k -= 1
                continue
            return thing
        k -= 1
    return None


def _only_runs(talk: Talk, thing: Thing) -> bool:
    """Tell whether a thing only says when something was read: "224 out with the compressor going"."""
    front, behind = talk.words[max(0, thing.start - 3) : thing.start], talk.words[thing.end : thing.end + 2]
    when = not {"with", "when", "while"}.isdisjoint(front)
    return when and not word_set("only_runs").isdisjoint(behind)


def _the_fault(talk: Talk, verb: int) -> Thing | None:
    """Return the part told to be the fault: "the stat was the trouble. Jumped it, the compressor came on"."""
    here = talk.w.sentence_of[verb]
    begin = talk.w.sentences[max(0, here - 4)][0]
    if word_set("called_the_fault").isdisjoint(talk.words[begin:verb]):
        return None
    for thing in reversed(talk.things[bisect_left(talk.starts, begin) : bisect_left(talk.starts, verb)]):
        behind = talk.words[thing.end : thing.end + 3]
        said = behind[:2] in (("was", "the"), ("is", "the"), ("'s", "the"), ("was", "my"), ("'s", "my"))
        front = talk.words[max(begin, thing.start - 3) : thing.start]
        if front[1:] in (("was", "the"), ("is", "the"), ("'s", "the")) and front[0] in word_set(
            "called_the_fault"
        ):
            return None if thing.name in part_words("no_part") else thing
        if said and behind[2:3] != () and behind[2] in word_set("called_the_fault") and not thing.modifier:
            return None if thing.name in part_words("no_part") else thing
        if not said and any(w in word_set("failed") for w in behind):
            return None
    return None


def no_part_here(talk: Talk, thing: Thing) -> bool:
    """Tell whether a bare word names no part here: a main switch, or the fan side of a capacitor."""
    word, behind = talk.words[thing.start], talk.words[thing.end : thing.end + 1]
    if word == "switch" and talk.words[max(0, thing.start - 2) : thing.start] in _THROWN:
        return True
    if word in ("switch", "control"):
        return behind in (("locked",), ("off",), ("on",), ("thrown",), ("pulled",), ("circuit",), ("power",))
    if word == "fan" and behind == ("circuit",):
        return True
    return word == "fan" and any(
        w.startswith("herm") for w in talk.words[max(0, thing.start - 9) : thing.start]
    )


_THROWN = (
    ("kill", "the"),
    ("killed", "the"),
    ("throw", "the"),
    ("flip", "the"),
    ("hit", "the"),
    ("threw", "the"),
)


def _only_shut(talk: Talk, thing: Thing) -> bool:
    """Tell whether a valve was only shut or opened on the way ("shut the ball valve, cut it out")."""
    plain = talk.words[thing.start : thing.end] == ("valve",)  # whichever valve it was taken for
    if not plain and thing.name not in word_set("valves_to_shut"):
        return False
    return any(w in word_set("shuts_a_valve") for w in talk.words[max(0, thing.start - 4) : thing.start])


def _told_by_pronoun(talk: Talk, verb: int) -> Thing | None:
    """Return the part that a pronoun of the doing before stood for, where no part was named since.

    "Changed number three for a new one. Measured it before I fitted it": still number three.
    """
    last = next((h for h in reversed(talk.out) if h.start < verb), None)
    if last is None or not last.pronoun or not last.things or last.action not in ("replaced", "installed"):
        return None
    if not last.start < verb or talk.w.sentence_of[verb] - talk.w.sentence_of[last.start] > 1:
        return None
    named = talk.things[bisect_left(talk.starts, last.end) : bisect_left(talk.starts, verb)]
    return last.things[-1] if not [t for t in named if t.name not in part_words("no_part")] else None


def put_in_last(talk: Talk, i: int) -> Thing | None:
    """Return the part put in by the doing told last, in this sentence or the one before word i."""
    for h in reversed(talk.out):
        if h.start >= i or h.action != "replaced" or h.status != "done" or not h.things or not h.new:
            continue
        named = talk.things[bisect_left(talk.starts, h.end) : bisect_left(talk.starts, i)]
        others = [t for t in named if t.name not in part_words("piece_of_another") | part_words("no_part")]
        near = talk.w.sentence_of[i] - talk.w.sentence_of[h.start] <= 1
        return h.things[-1] if near and not others else None
    return None


def rated_part(talk: Talk, verb: int, k: int, last: int) -> Thing | None:
    """Return the part that a rating at words [k, last) stands for: "a twelve watt" is a motor."""
    while last < len(talk.words) and talk.words[last] in word_set("rates_a_part"):
        last += 1
    ends = next((e for w, e in _RATED if any(x in w for x in talk.words[k:last])), None)
    if ends is None:
        return None
    for thing in reversed(talk.things[: bisect_left(talk.starts, verb)]):
        if talk.w.sentence_of[verb] - talk.w.sentence_of[thing.start] > 8:
            return None
        if thing.name.endswith(ends) and thing.name not in part_words("no_part"):
            return thing
    return None


_RATED = (
    (
        ("watt", "watts", "watter"),
        ("motor", "heater", "element", "lamp", "bulb", "light bulb", "wire", "fan"),
    ),
    (("horse", "horsepower", "hp"), ("motor", "pump", "compressor", "fan")),
    (("va",), ("transformer",)),
    (("mike", "mikes", "mfd", "microfarad", "microfarads", "uf"), ("capacitor",)),
    (("pole",), ("contactor", "relay", "breaker", "disconnect switch")),
    (("amp",), ("fuse", "contactor", "breaker", "relay", "disconnect switch")),
)


def numbered_part(talk: Talk, verb: int, k: int) -> Thing | None:
    """Return the part that "number three" at word k stands for: one of a row told of before."""
    if talk.words[k : k + 1] != ("number",):
        return None
    for thing in reversed(talk.things[: bisect_left(talk.starts, verb)]):
        if talk.w.sentence_of[verb] - talk.w.sentence_of[thing.start] > 25:
            return None
        if thing.name in part_words("no_part") or thing.modifier:
            continue
        behind = talk.words[thing.end : thing.end + 2]
        named = behind[:1] == ("number",) or (
            behind[:1] != () and behind[0] in _COUNTS and behind[1:2] not in (("point",), ("hundred",))
        )
        before = talk.words[max(0, thing.start - 3) : thing.start]
        counted = thing.plural and any(w in _COUNTS or w in ("four", "five", "six") for w in before)
        if named or counted or (before and before[-1] in word_set("ordinals")):
            return thing
    return None


_COUNTS = ("one", "two", "three", "1", "2", "3", "4", "5", "four", "five", "six")


def _kept_dry(talk: Talk, thing: Thing, verb: int) -> bool:
    """Tell whether the thing is electrical and the verb one of water ("rinsed it twice")."""
    electrical = thing.name.endswith("motor") or thing.name in word_set("kept_dry")
    return electrical and talk.words[verb].startswith(tuple(word_set("wet_verbs")))


def only_a_place(talk: Talk, thing: Thing) -> bool:
    """Tell whether the thing is only a place ("at the compressor", "through the condenser")."""
    j = thing.start - 1
    while j >= 0 and (
        talk.words[j] in DETERMINERS or talk.words[j] in ("full", "whole", "complete", "entire")
    ):
        j -= 1
    if j >= 0 and talk.words[j] == "than":
        return True  # "seven dollars less than the full valve"
    if (
        j > 0
        and talk.words[j] in ("in", "on", "inside", "of")
        and talk.words[thing.end : thing.end + 1] in (("is",), ("was",), ("'s",), ("were",), ("are",))
        and any(t.end == j for t in talk.things)
    ):
        return True  # "the zinc in the condenser is half gone so I put a new one in"
    return j >= 0 and talk.words[j] in (
        "at",
        "across",
        "to",
        "near",
        "behind",
        "under",
        "by",
        "into",
        "onto",
        "through",
    )


def capacitor_rated(talk: Talk, verb: int) -> Thing | None:
    """Return the capacitor that a bare rating stands for ("put in a thirty five seven five")."""
    _, end = talk.scopes.sentence(verb)
    k = next(
        (
            j
            for j in range(verb + 1, min(end, verb + 5))
            if talk.words[j] in NUMBER_WORDS or talk.words[j][0].isdigit()
        ),
        None,
    )
    if k is None or not only_numbers(talk, k, end):
        return None
    for thing in reversed(talk.things[: bisect_left(talk.starts, verb)]):
        if talk.w.sentence_of[verb] - talk.w.sentence_of[thing.start] > 6:
            return None
        if "capacitor" in thing.name:
            return thing
    return None


def named_in_row_before(talk: Talk, thing: Thing) -> list[Thing]:
    """Return the parts that are named in one row with a thing, before it ("a relay and an overload")."""
    out: list[Thing] = []
    k = bisect_left(talk.starts, thing.start)
    start, _ = talk.scopes.sentence(thing.start)
    while k > 0 and talk.things[k - 1].start >= start:
        previous = talk.things[k - 1]
        between = talk.words[previous.end : thing.start]
        if not any(w in (",", "and", "plus") for w in between) or not all(
            w in (",", "and", "plus", "both") or w in DETERMINERS or w in part_words("plain_new")
            for w in between
        ):
            break
        out.insert(0, previous)
        thing = previous
        k -= 1
    return out


def other_one(talk: Talk, thing: Thing) -> list[Thing]:
    """Return the part named before a thing, in its sentence or in the one before."""
    number = talk.w.sentence_of[thing.start]
    for previous in reversed(talk.things[: bisect_left(talk.starts, thing.start)]):
        if number - talk.w.sentence_of[previous.start] > 1:
            break
        if (
            previous.name != thing.name
            and previous.name not in part_words("no_part")
            and not previous.modifier
        ):
            return [previous]
    return []


def part_before_lone_verb(talk: Talk, verb: int, hit: Hit, action: str, end: int) -> Thing | None:
    """Return the part of the sentence before where a verb stands alone ("Gasket torn. Replaced.")."""
    if hit.end < end and talk.words[hit.end] not in (".", ",", "with", "too"):
        return None
    if talk.scopes.verb(verb) != "done":
        return None
    found = part_meant(talk, verb, action)
    if found is None or talk.w.sentence_of[verb] - talk.w.sentence_of[found.start] != 1:
        return None
    return found


def _counted_in_front(talk: Talk, verb: int, start: int) -> Thing | None:
    """Return the parts that a sentence opens with and counts ("belts, two numbers, both changed")."""
    k = start + (talk.words[start] in DETERMINERS)
    thing = talk.thing_from(k)
    if thing is None or thing.modifier or not thing.plural or talk.words[verb - 1] not in ("both", "all"):
        return None
    return thing if talk.words[thing.end : thing.end + 1] == (",",) else None


def part_left_out(talk: Talk, verb: int, hit: Hit, action: str) -> Thing | None:
    """Return the part named before a verb that has no object of its own ("blown fuse, changed")."""
    if action not in ("replaced", "cleaned", "adjusted") or talk.scopes.kind(verb) != "past":
        return None
    start, end = talk.scopes.sentence(verb)
    k = hit.end
    if k < end and talk.words[k] not in (".", ",", ";", "and", "with", "too", "as", "then"):
        return None
    if talk.words[k : k + 1] == ("with",) and action != "replaced":
        return None
    g = talk.scopes.skip_back(verb - 1, start)
    if g < start:
        return part_before_lone_verb(talk, verb, hit, action, end)
    if talk.words[g] not in (",", "and", "so", "then"):
        return None
    found = _counted_in_front(talk, verb, start) or part_meant(talk, verb, action)
    if found is None or found.start < start or talk.scopes.verb(verb) != "done":
        return None
    # The last thing told of in this sentence, and no other verb of work since.
    if any(
        talk.scopes.kind(j) == "past" and talk.words[j] not in word_set("state_pasts")
        for j in range(found.end, g)
    ):
        return None
    return found
