"""The part that hands are at: the one just tested and found bad, where only "him", "the old one" is said.

"Contactor, top side. ... That middle pole, nine volts. Cooked. ... Old one's out."
"Left motor, three point one. ... Start cap, one fifteen. That ain't him. Belt off. That's him off."
"""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import replace

from dictate.mentions.handled.doing import handled_parts
from dictate.mentions.handled.referents import no_part_here, only_a_place
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import part_words
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set

REACH = 260
"""Words back in which the part under test was named: tests are told in many short ones."""

LONG_AGO = 120
"""Words back from which on a part is meant only where it was told to be bad."""

COIL = 80
"""Words between a valve and the coil of it that was tested."""

TOLD, BAD = 40, 12
"""Words behind a part in which it is told to be good, and to be bad."""


def under_test(talk: Talk, first: int, last: int) -> Thing | None:
    """Return the part that gestures at words [first, last) take off and put on, if it can be told."""
    near = _candidates(talk, max(0, first - REACH), first)
    if not part_words("poles_of_it").isdisjoint(talk.words[max(0, first - 40) : last + 12]):
        poled = [t for t in near if t.name in part_words("parts_with_poles")]
        if poled:
            return poled[-1]  # "out she comes, middle pole's burnt black"
    near = [t for t in near if not _kept_shut(talk, t, first, last)]
    if near and _called_up(talk, near[-1], first) and not _off_on_the_way(talk, near[-1], first):
        return near[-1]
    good = _found_good(talk, near, first)
    good |= _renewed(talk, near)
    left = [t for t in near if t.part not in good and not _off_on_the_way(talk, t, first)]
    whole = [t for t in left if t.name not in part_words("piece_of_another") or t.part != t.name]
    for some in (whole, left):
        if some:
            bad = [t for t in some if condemned(talk, t)]
            if not bad and some[-1].start < first - LONG_AGO and len({t.part for t in some}) > 1:
                return None
            # One that is told to be bad goes before what was only measured or named since.
            made = bad[-1] if bad and bad[-1].start > some[-1].start - REACH // 2 else some[-1]
            return _owner(talk, made, first, last)
    return _by_its_windings(talk, first, last) or _behind_a_blade(talk, first)


def _owner(talk: Talk, thing: Thing, first: int, last: int) -> Thing:
    """Return the whole of which a piece is broken: the motor of a bearing, where its blade came off.

    The pump of an impeller, where the hoses came off it ("clamps on the hoses. That impeller's in bits").
    """
    if thing.name == "impeller":
        if word_set("comes_off_a_pump").isdisjoint(talk.words[max(0, first - REACH // 5) : last + 6]):
            return thing
        pump = "glycol pump" if "glycol" in talk.words[:first] else "water pump"
        return replace(thing, name=pump, part=pump)
    motor = _behind_a_blade(talk, first) if thing.name == "bearing" else None
    return motor or thing


def _behind_a_blade(talk: Talk, first: int) -> Thing | None:
    """Return the motor that nobody named, of a fan of which the blade came off ("Blade off. And out.")."""
    for thing in reversed(
        talk.things[bisect_left(talk.starts, first - REACH // 2) : bisect_left(talk.starts, first)]
    ):
        if thing.name == "fan blade" and talk.words[thing.end : thing.end + 1] in (("off",), ("oot",)):
            return replace(thing, name="fan motor", part="fan motor", generic=False)
    return None


def _by_its_windings(talk: Talk, first: int, last: int) -> Thing | None:
    """Return the compressor that nobody named, of which the windings were told and the circuit was opened.

    "Common to run, one three. ... Run to the pipe, twelve ohms. That's cooked. ... Torch. Old one's out."
    """
    since = max(0, first - REACH)
    ends = word_set("winding_ends")
    row = talk.words
    told = next(
        (k for k in range(since, first - 2) if row[k] in ends and row[k + 1] == "to" and row[k + 2] in ends),
        None,
    )
    if told is None or part_words("opens_the_circuit").isdisjoint(row[max(0, first - 80) : last + 60]):
        return None
    if (word_set("failed") | word_set("worn_out")).isdisjoint(row[told:first]):
        return None
    return Thing(told, told + 3, "compressor", "compressor")


def _called_up(talk: Talk, thing: Thing, first: int) -> bool:
    """Tell whether a part is called up right before the gestures by its name alone ("Drier. Old one off")."""
    start, end = talk.scopes.sentence(thing.start)
    return end - start <= 3 and first - end < 3


def exactly(talk: Talk, thing: Thing) -> Thing:
    """Return a part by the more exact name that one of its kind was given before.

    A valve that nobody named closer, with a coil that was tested, is a solenoid valve.
    """
    if not thing.generic and thing.name != "valve body":
        return thing
    kind = thing.name.removesuffix(" body").split()[-1]
    for other in reversed(talk.things[: bisect_left(talk.starts, thing.start)]):
        if not other.generic and other.name.endswith(f" {kind}") and other.name != thing.name:
            return replace(thing, name=other.name, part=other.name, generic=False)
    if _coil_of(talk, thing) is not None:
        return replace(thing, name="solenoid valve", part="solenoid valve", generic=False)
    return thing


def _candidates(talk: Talk, since: int, first: int) -> list[Thing]:
    """Return the parts named before the gestures that hands can take off and put on."""
    named = talk.things[bisect_left(talk.starts, since) : bisect_left(talk.starts, first)]
    never = part_words("seldom_it") | part_words("bits_of_a_repair") | part_words("seldom_in_hand")
    return [
        t
        for t in handled_parts(named)
        if (not t.modifier or _owns_a_piece(talk, t))
        and (t.name not in never or _by_what_it_has(talk, t, first))
        and not no_part_here(talk, t)
        and not _by_the_way(talk, t)
    ]


def _by_what_it_has(talk: Talk, thing: Thing, first: int) -> bool:
    """Tell whether a thermostat is in hand: its knob, bulb or well was told of ("bulb out of the well")."""
    told = talk.words[thing.end : first + 6]
    return thing.name == "thermostat" and not word_set("belongs_to_a_thermostat").isdisjoint(told[-30:])


def _by_the_way(talk: Talk, thing: Thing) -> bool:
    """Tell whether a part is only a place, or a probe of the meter; "looking at" one is none."""
    if talk.words[thing.start] in ("probe", "probes"):
        return True
    looked = any(w in word_set("looks_at") for w in talk.words[max(0, thing.start - 4) : thing.start])
    return only_a_place(talk, thing) and not looked


def _owns_a_piece(talk: Talk, thing: Thing) -> bool:
    """Tell whether a part was named as the owner of a piece: "coil on that valve, four ten"."""
    k = bisect_left(talk.starts, thing.start)
    piece = talk.things[k - 1] if k else None
    return piece is not None and thing.start - piece.end < 3 and piece.name in part_words("piece_of_another")


def _kept_shut(talk: Talk, thing: Thing, first: int, last: int) -> bool:
    """Tell whether a part is one of the circuit, and nothing near says that the circuit was open."""
    if thing.name not in part_words("parts_of_the_circuit") or thing.part.endswith("valve coil"):
        return False
    return part_words("opens_the_circuit").isdisjoint(talk.words[max(0, first - 80) : last + 60])


def _told(talk: Talk, thing: Thing) -> tuple[str, ...]:
    """Return the words behind a part, up to the next one named."""
    k = bisect_left(talk.starts, thing.end)
    stop = talk.starts[k] if k < len(talk.starts) else len(talk.words)
    return talk.words[thing.end : min(stop, thing.end + TOLD)]


def _found_good(talk: Talk, near: list[Thing], first: int) -> set[str]:
    """Return the parts of which the last verdict is that they are good."""
    good: set[str] = set()
    for thing in near:
        if condemned(talk, thing):
            good.discard(thing.part)
        elif not _owns_a_piece(talk, thing) and _cleared(talk, thing, first):
            good.add(thing.part)
    return good


def _renewed(talk: Talk, near: list[Thing]) -> set[str]:
    """Return the parts that are new by now: hands go on to another ("New belt on. ... This can here")."""
    on = word_set("on_words")
    return {
        t.part
        for t in near
        if talk.words[t.start - 1] in ("new", "fresh")
        and talk.words[t.end : t.end + 1]
        and talk.words[t.end] in on
    }


def _cleared(talk: Talk, thing: Thing, first: int) -> bool:
    """Tell whether a part was told before the gestures to be good, to stay, or not to be the one."""
    told = _told(talk, thing)[: first - thing.end]
    for k, word in enumerate(told):
        if word in word_set("found_good") or word in word_set("stays_in"):
            if told[k + 1 : k + 2] and told[k + 1] in word_set("good_ones_beside"):
                continue  # "good side, three point one"
            return told[k - 1] not in ("not", "no", "n't") if k else True
        if word in word_set("turns_by_hand") and not word_set("turns_well").isdisjoint(told[k + 1 : k + 2]):
            return True
        if word in word_set("works_in_sight") and told[k - 1 : k] in (("is",), ("are",), ("'s",), ("'re",)):
            return word_set("works_badly").isdisjoint(told[k + 1 : k + 4])  # "fans are spinning, ..."
        if word in word_set("is_not") and not word_set("the_one_meant").isdisjoint(told[k + 1 : k + 3]):
            return True
    return False


def _coil_of(talk: Talk, thing: Thing) -> Thing | None:
    """Return the coil named behind a valve that was called nothing but a valve."""
    if thing.name != "valve":
        return None
    k = bisect_left(talk.starts, thing.end)
    near = (t for t in talk.things[k : k + 2] if t.start - thing.end < COIL)
    return next((t for t in near if t.name == "coil" and t.generic), None)


def condemned(talk: Talk, thing: Thing) -> bool:
    """Tell whether a part was told to have failed, a valve behind its coil too ("coil's good, it sticks")."""
    bad = word_set("failed") | word_set("worn_out")
    if thing.part.endswith("valve"):
        bad -= {"open"}  # an open valve is no bad one
    if talk.words[thing.start - 1] in word_set("called_bad"):
        return True  # "two dead fans on good power"
    coil = _coil_of(talk, thing)
    rows = [_told(talk, t)[:BAD] for t in (thing, coil) if t is not None]
    return any(w in bad and "not" not in told[max(0, k - 2) : k] for told in rows for k, w in enumerate(told))


def _off_on_the_way(talk: Talk, thing: Thing, first: int) -> bool:
    """Tell whether a part was taken off by itself on the way to the one meant ("belt off, four bolts")."""
    return talk.words[thing.end : thing.end + 1] in (("off",), ("out",)) and thing.end + 1 < first
