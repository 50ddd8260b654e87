"""One quantity judged: its kind, with every reason to look at it."""

from __future__ import annotations

from dictate.mentions.movements.kind import what_it_is
from dictate.mentions.movements.mass import OUNCES_UNSAID, Mass
from dictate.mentions.movements.surroundings import other_visit
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.vocabulary import phrases
from dictate.mentions.patterns import NUMBER_WORDS
from dictate.mentions.quantities import Quantity, mass_of
from dictate.record.visit import Candidate


def judged(talk: Talk, q: Quantity) -> Mass | None:
    """Judge one quantity; None when it can be no mass."""
    start, end = talk.w.word_of_token(q.start), talk.w.word_of_token(q.end)
    if start >= len(talk.words):
        return None
    mass = mass_of(q)
    review, candidates = list(q.reasons), list(q.candidates)
    if mass is None:
        return misheard_unit(talk, q, start, end)
    value, unit = mass
    kind, status, trigger = what_it_is(talk, start, end, q)
    plated = any(a.kind == "rated" and a.unit == unit and a.value == value for a in talk.masses)
    if talk.vacuum:
        if not plated:
            review.append("it was said behind the vacuum, without a word of charging")
        talk.vacuum = False
    if talk.staged:
        review.append("nothing beside it says which way it went: told by the work before it")
        talk.staged = False
    if talk.far and named_just_before(talk, start):
        kind, status = (
            "rated",
            None,
        )  # "it's R-290, a hundred and fifteen grams": its plate, not what was moved
        talk.far = False
    if talk.far:
        review.append("what was moved was said some sentences before")
        talk.far = False
    if value < 0 and kind == "charged":
        # What a scale set to nought showed: the cylinder lost it ("minus 7 pounds 2").
        small = value - q.parts[0] if len(q.parts) == 2 else 0.0
        value = abs(q.parts[0]) + small if small > 0 else -value
    if status == "done" and other_visit(talk, start):
        status = None
    elif status == "done" and talk.scopes.framed(start):
        status = "planned"  # "Tomorrow, here's the plan. ... Then nine pounds goes back in."
    if kind in ("recovered", "charged") and OUNCES_UNSAID in review:
        review.remove(OUNCES_UNSAID)
    if q.word == "sterling" and kind in ("recovered", "charged") and not q.parts:
        review.append("written as money; pounds fit a refrigerant weight")
    if kind in ("recovered", "charged"):
        review += said_vaguely(talk, start, end)
        if talk.words[start - 1 : start] == ("to",) and talk.narration.tokens[q.start].lower[:1] in (
            "p",
            ".",
        ):
            review.append('"to" before it may be the digit two')
            heard = talk.narration.heard(q.start - 1, q.end)
            why = "two and the part behind the point"
            candidates.append(Candidate(value=round(2 + value, 6), unit=unit, heard=heard, why=why))
        if number_goes_on(talk, q, end):
            review.append("another number follows at once")
    return Mass(q, start, end, value, unit, kind, status, trigger, review, candidates)


def named_just_before(talk: Talk, start: int) -> bool:
    """Tell whether the name of a refrigerant stands right before an amount, a comma between."""
    return start > 1 and talk.words[start - 1] == "," and talk.in_name(start - 2)


def said_vaguely(talk: Talk, start: int, end: int) -> list[str]:
    """Return the reason to look at an amount that was not said for certain ("two pounds and change")."""
    for phrase in phrases("vague"):
        if talk.words[max(0, start - len(phrase)) : start] == phrase:
            return [f"said with {' '.join(phrase)!r}"]
    rest = talk.words[end : end + 5]
    behind = rest[1:] if rest[:1] == (",",) else rest
    for phrase in phrases("vague_behind"):
        if behind[: len(phrase)] == phrase:
            return [f"said with {' '.join(phrase)!r}"]
    return []


def number_goes_on(talk: Talk, q: Quantity, end: int) -> bool:
    """Tell whether a number without a unit of its own stands right behind ("a kilo oh fifty")."""
    word = talk.words[end] if end < len(talk.words) else "."
    if word not in NUMBER_WORDS and not word[:1].isdigit():
        return False
    if talk.in_name(end) or word in ("a", "and", "or"):
        return False
    return not any(o.start == q.end for o in talk.quantities)


_OHMIC = frozenset(("coil", "winding", "windings", "sensor", "probe", "thermistor", "element", "heater"))


def misheard_unit(talk: Talk, q: Quantity, start: int, end: int) -> Mass | None:
    """Take "2.6 ohms" right after "recovered" for two pounds six ounces, with a reason."""
    if q.unit != "ohm" or len(q.numbers) != 1 or not q.numbers[0].written:
        return None
    s0, s1 = talk.scopes.sentence(start)
    if any(
        o is not q and o.unit == "ohm" and s0 <= talk.w.word_of_token(o.start) < s1 for o in talk.quantities
    ):
        return None  # "three elements, I got 32 ohms, 32 ohms and 33 ohms"
    if "kilo" in talk.narration.heard(q.start, q.end).lower():
        return None  # kilohms sound like no weight: the value of a sensor
    if not _OHMIC.isdisjoint(talk.words[max(s0, start - 5) : start]):
        return None  # "the relay coil came out at 6.2 K"
    number = q.numbers[0]
    kind, status, trigger = what_it_is(talk, start, end, q)
    talk.staged = talk.vacuum = talk.far = False
    if talk.words[trigger : trigger + 2] in (("i", "got"), ("we", "got")):
        return None  # that is said of every reading
    if kind not in ("recovered", "charged") or trigger >= start or start - trigger > 5 or status != "done":
        return None
    heard = talk.narration.heard(q.start, q.end)
    pounds = int(number.value)
    ounces = round((number.value - pounds) * 10**number.places)
    if number.places != 1 or not ounces:
        candidate = Candidate(value=number.value, unit="oz", heard=heard, why="ounces sound like ohms")
        return Mass(
            q,
            start,
            end,
            number.value,
            "oz",
            kind,
            status,
            trigger,
            [f"heard {heard}, which is no weight; {number.value:g} oz fits"],
            [candidate],
        )
    joined = pounds + ounces / 16
    why = f"heard {heard}, which is no weight; {pounds} lb {ounces} oz fits"
    candidates = [
        Candidate(value=joined, unit="lb", heard=heard, why=f"{pounds} pounds {ounces} ounces"),
        Candidate(value=number.value, unit="oz", heard=heard, why="ounces sound like ohms"),
    ]
    return Mass(q, start, end, joined, "lb", kind, status, trigger, [why], candidates)
