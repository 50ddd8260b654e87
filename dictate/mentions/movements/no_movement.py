"""Amounts that are no movement: of another stuff, a container, a difference, a pressure."""

from __future__ import annotations

from dictate.mentions.movements.surroundings import phrase_length
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.vocabulary import phrases
from dictate.mentions.pressure_talk import told_as_pressure
from dictate.mentions.quantities import Quantity
from dictate.mentions.test_stretches import find_stretches, stretch_words
from dictate.vocabulary.load import word_set


def of_other_stuff(rest: tuple[str, ...]) -> bool:
    """Tell whether the amount is one of oil, ice or another stuff ("four ounces of oil")."""
    k = 1 if rest[:1] == ("of",) else 0
    if k and not word_set("never_gas").isdisjoint(rest[1:4]):
        return True  # "pulled twenty pounds of melted butter out of there"
    return (
        any(w in word_set("other_stuff") for w in rest[k : k + 2])
        and (k == 1 or rest[:1] != (",",))
        and rest[:1] not in ((",",), (".",), ("and",))
    )


def stuff_is_subject(talk: Talk, start: int, end: int, s0: int, s1: int) -> bool:
    """Tell whether another stuff is drained or filled here: "gear box oil drained, 14 ounces".

    The last stuff named in the sentence before the amount, refrigerant or another, is what the amount is of.
    """
    stuffs, gases = word_set("filled_stuff"), word_set("gas_words") | word_set("weighed_vessels")
    named = talk.named
    low = max((a.end for a in talk.masses if s0 <= a.end <= start), default=s0)
    low = max(low, start - 14)
    verbs = {
        h.start
        for h in talk.hits_in(low, start)
        if h.verb is not None and h.label in ("recovered", "charged")
    }
    passed = False
    for k in range(start - 1, low - 1, -1):
        if k in named or talk.words[k] in gases or talk.words[k] in ("so", "but"):
            return False
        if (
            passed
            and talk.words[k] in ("and", "then", ",")
            and talk.words[k - 1] not in stuffs | word_set("fills")
        ):
            return False  # the verb before the amount begins a new clause
        passed = passed or k in verbs
        if talk.words[k] in stuffs:
            behind = talk.words[end : min(s1, end + 6)]
            last = next((n for n, w in enumerate(behind) if w in (",", "and", ".")), len(behind))
            if any(end <= n < end + last for n in named) or set(behind[:last]) & gases:
                return False
            return any(w in word_set("fills") for w in (*talk.words[low:start], *behind[:3]))
    return False


def on_paper(talk: Talk, start: int, s0: int) -> bool:
    """Tell whether a paper was filled in and no machine: "label filled in, 1.55 kilos total"."""
    k = start
    while k > s0 and talk.words[k - 1] in word_set("between_paper_and_amount"):
        k -= 1
    if talk.words[max(s0, k - 2) : k] not in (("filled", "in"), ("filled", "out"), ("written", "up")):
        return False
    before = talk.words[max(s0, k - 4) : k - 2]
    return any(w in word_set("papers") for w in before)


def pumped_down(talk: Talk, start: int, end: int, s0: int, s1: int) -> bool:
    """Tell whether gas only went to another part of the machine: "pumped ten pounds into the receiver"."""
    rest = talk.words[end : min(s1, end + 7)]
    stop = next((n for n, w in enumerate(rest) if w in (",", ".", "and", "then")), len(rest))
    return bool(set(rest[:stop]) & word_set("holds_gas")) and any(
        w in ("pumped", "pumping", "pump", "valved", "trapped", "locked", "parked", "stored")
        for w in talk.words[max(s0, start - 5) : start]
    )


_NAMED_WITHIN = 14
"""Words before the size of a thing in which it was named: "new drier in ..., the ten gram one"."""


def of_a_part(talk: Talk, start: int, s0: int, rest: tuple[str, ...]) -> bool:
    """Tell whether the amount is the size of a part: "a 3 pound drier", "drier in, fifteen gram one"."""
    parts = word_set("parts_sized_by_weight")
    if rest[:1] and rest[0] in parts:
        return True
    named = parts | word_set("weighed_vessels")
    near = talk.words[max(s0, start - _NAMED_WITHIN) : start]
    return rest[:1] in (("one",), ("ones",), ("size",)) and not named.isdisjoint(near)


def is_whole(talk: Talk, start: int) -> bool:
    """Tell whether the amount is the whole of which the one before is a part: "2 pounds of the 3"."""
    last = talk.masses[-1] if talk.masses else None
    return last is not None and start - last.end == 2 and talk.words[last.end : start] in phrases("part_of")


def whole_without_unit(talk: Talk, start: int) -> bool:
    """Tell whether a bare number is the whole of the amount before it: "two pounds of the three"."""
    return any(
        talk.words[start - len(p) : start] == p and start - len(p) in talk.weight_ends
        for p in phrases("part_of")
    )


def whole_behind(talk: Talk, end: int) -> int:
    """Return the end of the whole that stands behind a part ("2 pounds | of the 3 pounds 6 | was left")."""
    if talk.words[end : end + 2] not in phrases("part_of"):
        return end
    return next(
        (talk.w.word_of_token(q.end) for q in talk.quantities if talk.w.word_of_token(q.start) == end + 2),
        talk.counted.get(end + 2, end),
    )


def none_at_all(talk: Talk, start: int, q: Quantity) -> bool:
    """Tell whether one unit is denied, so that nothing is: "not a gram added", "never an ounce"."""
    if q.value != 1 or q.parts:
        return False
    k = start
    if talk.words[k - 1 : k] in (("single",), ("one",)):
        k -= 1
    if talk.words[k - 1 : k] == ("a",):
        k -= 1
    return talk.words[k - 1 : k] in (
        ("not",),
        ("nor",),
        ("never",),
        ("without",),
        ("no",),
        ("even",),
        ("hardly",),
    )


def of_container(rest: tuple[str, ...]) -> bool:
    """Tell whether the amount is the size of a cylinder ("a 30 pound recovery tank")."""
    vessels = word_set("weighed_vessels")
    return rest[:1] != () and (
        rest[0] in vessels
        or (len(rest) > 1 and rest[1] in vessels and rest[0] in word_set("kinds_of_vessel"))
    )


def is_difference(talk: Talk, start: int, end: int, s0: int, s1: int) -> bool:
    """Tell whether the amount only says how far apart two amounts are, or one step of many.

    "Two ounces less than the plate", "1.9 kg added more than came out", "four ounces at a time".
    """
    rest = talk.words[end : min(s1, end + 6)]
    if phrase_length(rest, "apart") or (
        rest[:1]
        and rest[0] in word_set("apart_alone")
        and (rest[1:2] in ((".",), (",",), ()) or not talk.number_at(end + 1))
    ):
        return True
    for k in range(1, min(4, len(rest))):
        if rest[k - 1] in (",", ".", "and", "then", "but"):
            break
        if phrase_length(rest[k:], "apart_later"):
            return True
    return bool(talk.words[max(s0, start - 3) : start]) and any(
        talk.words[max(s0, start - len(p)) : start] == p for p in phrases("apart_before")
    )


def is_pressure(talk: Talk, start: int, end: int, s0: int, s1: int) -> bool:
    """Tell whether pounds are a pressure here."""
    low = max(s0, start - 7)
    verbs = {
        h.start
        for h in talk.hits_in(low, start)
        if h.verb is not None and h.label in ("recovered", "charged")
    }
    first = next((j for j in range(start - 1, low, -1) if j in verbs), low)
    if any(w in ("nitrogen", "n2") for w in (*talk.words[first:start], *talk.words[end : min(s1, end + 4)])):
        return True
    if talk.words[start - 1 : start] in (("until",), ("till",), ("til",)):
        return True  # "added gas until seventy pounds"
    if talk.words[start - 2 : start] == ("down", "to"):
        return True  # "pulled it down to two pounds and shut the valve"
    if talk.words[start - 1 : start] in (("to",), ("at",), ("about",)) and (
        talk.words[end : end + 1] in (("suction",), ("head",), ("discharge",), ("pressure",))
        or talk.words[end : end + 3]
        in (("on", "the", "low"), ("on", "the", "high"), ("on", "the", "suction"))
    ):
        return True
    if (
        talk.words[end : end + 1] == ("on",)
        and talk.words[end + 1 : end + 2] in (("it",), ("her",), ("the",), ("that",), ("this",))
        and "plate" not in talk.words[end : end + 4]
        and not any(
            w in talk.words[end : end + 5]
            for w in ("plate", "label", "tag", "nameplate", "scale", "data", "sticker", "scales")
        )
    ):
        return True  # "put two hundred pounds on her"
    return talk.words[end : end + 2] == ("per", "square") or told_as_pressure(talk.words, s0, start, end, s1)


def of_the_test(talk: Talk, value: float, start: int, end: int, s0: int, s1: int) -> bool:
    """Tell whether many pounds are nitrogen's: "one fifty of nitrogen, no, two hundred fifty pounds".

    Said in a pressure test, or in a sentence with nitrogen; a refrigerant named with them takes them.
    """
    if value < 40:
        return False
    named = [talk.w.word_of_token(n.start) for n in talk.names]
    if any(start - 3 <= n <= end + 3 for n in named):
        return False
    gas = [k for k in range(s0, s1) if talk.words[k] in stretch_words("gases")]
    if gas:
        moved = stretch_words("charges") & set(talk.words[gas[0] : start])
        return not moved and not any(s0 <= n < s1 for n in named)
    first, last = talk.w.tokens[s0], talk.w.tokens[start]
    if (stretch_words("charges") | word_set("stage_out")) & set(talk.words[s0:start]):
        return False
    said = talk.words[max(0, s0 - _JUST) : s0]
    if stands_a_while(talk, value, end, s1) and not stretch_words("charges") & set(said):
        return True
    return any(
        x.kind == "pressure_test" and x.start <= last and x.end > first
        for x in find_stretches(talk.narration)
    )


_JUST = 5
"""Words at the end of the sentence before that can still say what the amount is ("Charged it.")."""
_STOOD = 7
"""Words behind a test pressure in which its time, or the same pressure again, is told."""
_TESTED = 90.0
"""Pounds from which an amount that only stands for a time is a test pressure, not a cylinder of gas."""


def stands_a_while(talk: Talk, value: float, end: int, s1: int) -> bool:
    """Tell whether many pounds are left standing: "three hundred pounds, thirty minutes, no drop"."""
    rest = talk.words[end : min(s1 + 2, end + _STOOD)]
    if value < _TESTED or phrase_length(rest, "after_in") or phrase_length(rest, "after_out"):
        return False
    timed = any(w in word_set("test_times") for w in rest)
    held = any(w in word_set("test_stood") for w in rest)
    same = any(n.value == value for n in talk.numbers_in(end, end + len(rest)))
    return timed or held or same
