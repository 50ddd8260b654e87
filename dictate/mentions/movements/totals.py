"""A total of amounts told in parts: it is the amount that moved, and the parts are not counted again.

    "Put the eleven ounces back in, then three of new, fourteen total."     charged 14 oz
    "Forty-six grams in, then two, forty-eight altogether."                 charged 48 g

A total that the parts do not give is no amount of its own ("three ounces more, so nine total" counts what was
in there before): of several parts the last one then carries a reason to look.
"""

from __future__ import annotations

from itertools import combinations

from dictate.mentions.movements.bare_pairs import pounds_and_ounces
from dictate.mentions.movements.mass import Mass, how_far_apart, put_right
from dictate.mentions.movements.no_readings import keep_number
from dictate.mentions.movements.surroundings import phrase_length
from dictate.mentions.movements.talk import Talk
from dictate.mentions.quantities import mass_of
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.units import convert
from dictate.vocabulary.load import word_set

_CORRECTS = 0.35
"""A corrected total is at most this part away from the one before."""
_FEW = 5
"""Of so many numbers between a part and its total some may be parts as well."""
_REACH = 45
"""Words between the first part and its total."""
_POUND = 16
_GRAMS = 20
"""A bare number behind kilos that is not below this may be of grams."""
_OFF = 0.02
"""A total may be rounded by this part of itself."""
_EXACT = 0.003
"""A number that is called no total is one only where it is the sum to this part of itself."""


def with_totals(talk: Talk, moved: list[Mass]) -> list[Mass]:
    """Put a total in the place of the parts that give it."""
    out = list(moved)
    if not out:
        return out
    for start, end, called in called_totals(talk):
        own = next((m for m in out if m.start < end and start < m.end), None)
        parts = [m for m in out if m.end <= start and start - m.start <= _REACH]
        kind = own.kind if own is not None else parts[-1].kind if parts else ""
        parts = [m for m in parts if m.kind == kind]
        if not parts:
            continue
        ways = [(own.value, own.unit)] if own is not None else _said(talk, start, end, parts)
        if not ways:
            continue
        value, unit = ways[0]
        giving: list[Mass] = []
        tries = [(way, _EXACT) for way in ways] + ([(ways[0], _OFF)] if called else [])
        opens = not called and talk.words[start - 1 : start] == (".",)
        for way, off in tries:
            giving = _that_give(talk, parts, convert(*way, "g"), start, off, bare=not opens)
            if giving:
                value, unit = way
                break
        if not called and not giving:
            continue
        if called and not giving and own is None and _puts_right(talk, parts[-1], value, unit, start, end):
            continue
        if giving and own is not None:
            out = [m for m in out if all(m is not p for p in giving)]
        elif giving:
            if called:
                keep_number(talk, start, end)
            whole = giving[-1]
            whole.value, whole.unit, whole.start, whole.end = value, unit, giving[0].start, end
            # A sum that comes out bears out the unit of a part that had none.
            doubts = [r for r in giving[0].review if not r.startswith("the unit was not said")]
            whole.review, whole.candidates = [*doubts, *_misheard(giving, value, unit)], []
            out = [m for m in out if m is whole or all(m is not p for p in giving)]
        elif own is not None or len(parts) > 1:
            why = f"a total of {value:g} {unit} was said, which the amounts before it do not give"
            (own or parts[-1]).review.append(why)
    return out


def _puts_right(talk: Talk, last: Mass, value: float, unit: str, start: int, end: int) -> bool:
    """Correct a total by the one behind "no": "... in total. No, the fresh was 0.9, so 4.1 in total"."""
    first = talk.words[last.end : start]
    denied = any(w in ("no", "nope", "wait", "sorry", "correction", "actually", "weight") for w in first)
    here = talk.w.sentence_of[start] - talk.w.sentence_of[last.start]
    by = Mass(last.q, start, end, value, unit, last.kind, last.status, last.trigger)
    if not denied or here > 2 or how_far_apart(last, by) > _CORRECTS:
        return False
    put_right(last, value, unit, by)
    return True


def called_totals(talk: Talk) -> list[tuple[int, int, bool]]:
    """Return the words of the numbers that are a total, and whether they are called one."""
    numbers = {talk.w.word_of_token(n.start): n for n in find_numbers(talk.narration) if not n.pronoun}
    of_others = {talk.w.word_of_token(q.start) for q in talk.quantities if mass_of(q) is None}
    weighed = {(m.start, m.end) for m in talk.masses}
    spans = [(m.start, m.end) for m in talk.masses]
    spans += [(k, talk.w.word_of_token(n.end)) for k, n in numbers.items()]
    out: list[tuple[int, int, bool]] = []
    for start, end in sorted(spans, key=lambda s: (s[0], -s[1])):
        if out and start < out[-1][1]:
            continue
        behind, before = talk.words[end : end + 6], talk.words[max(0, start - 3) : start]
        if behind[:1] and behind[0] in word_set("totals_even"):
            behind = behind[1:]  # "eighteen even all told"
        if (
            (behind[:1] and behind[0] in word_set("totals_behind"))
            or phrase_length(behind, "totals_behind")
            or (
                any(w in word_set("totals_before") for w in before[-2:])
                and behind[:1] not in (("more",), ("each",))
            )
        ):
            out.append((start, end, True))
        elif phrase_length(behind, "totals_of_several") and start not in of_others:
            out.append((start, end, False))  # "eleven and three and a half, fourteen and a half in the two"
        elif before[-1:] == (",",) and (start, end) in weighed:
            out.append((start, end, False))  # "four ounces and then two, six ounces"
        elif _makes(before) and start not in of_others:
            out.append((start, end, False))
        elif before[-1:] == (".",) and behind[:1] in ((".",), (",",)) and start not in of_others:
            out.append((start, end, False))  # "ten pounds, then a pound and a half. Eleven and a half."
    return out


def _makes(before: tuple[str, ...]) -> bool:
    """Tell whether the words in front of a number lead to a sum: "makes", "there's your", "that's the"."""
    lead = before[:-1] if before[-1:] and before[-1] in word_set("whose_sum") else before
    return bool(lead) and lead[-1] in word_set("sums_before")


def _said(talk: Talk, start: int, end: int, parts: list[Mass]) -> list[tuple[float, str]]:
    """Return what a total may be, likeliest first; a bare number has the unit of a part before it."""
    last = parts[-1]
    for m in talk.masses:
        if m.start == start and m.end == end:
            return [(m.value, m.unit)]
    number = _number_at(talk, start)
    if number is None:
        return []
    pair = pounds_and_ounces(talk.narration, number) if last.unit in ("lb", "oz") else None
    others = dict.fromkeys(m.unit for m in parts if m.unit != last.unit)
    if last.unit == "kg" and number.value >= _GRAMS and float(number.value).is_integer():
        others["g"] = None  # "one kilo three fifty plus ninety, that's one four four zero"
    return [
        (number.value, last.unit),
        *((number.value, u) for u in others),
        *([(pair[0] + pair[1] / 16, "lb")] if pair else []),
    ]


def _number_at(talk: Talk, start: int) -> Number | None:
    return next(iter(talk.numbers_in(start, start + 1)), None)


def _that_give(talk: Talk, parts: list[Mass], total: float, start: int, off: float, bare: bool) -> list[Mass]:
    """Return the last parts that give the total, with one amount between them and it if need be.

    A total that opens a sentence is one of amounts alone, not of the bare numbers between them.
    """
    for heard in (False, True):
        grams = 0.0
        for k in range(len(parts) - 1, -1, -1):
            way = _as_pounds(parts[k]) if heard else None
            grams += convert(*(way or (parts[k].value, parts[k].unit)), "g")
            rest = total - grams
            if k < len(parts) - 1 and abs(rest) <= (off if not heard else _EXACT) * total:
                return parts[k:]
            lost = _lost(talk, parts[k:], start, bare)
            if any(abs(rest - g) <= (off if not heard else _EXACT) * total for g in lost):
                return parts[k:]
            if len(lost) <= _FEW and any(
                abs(rest - sum(some)) <= _EXACT * total
                for n in range(2, len(lost) + 1)
                for some in combinations(lost, n)
            ):
                return parts[k:]
    return []


def _lost(talk: Talk, parts: list[Mass], start: int, bare: bool) -> list[float]:
    """Return, in grams, the amounts between the first part and its total that were not taken for parts."""
    part = parts[0]
    between = [m for m in talk.masses if part.end <= m.start < start]
    own = [m for m in between if all(m is not p for p in parts)]
    out = [convert(m.value, m.unit, "g") for m in own]
    for m in own:
        way = _as_pounds(m)
        out += [convert(*way, "g")] if way else []
    for number in talk.numbers_in(part.end, start) if bare else ():
        if number.value > 0 and not any(m.q.start <= number.start < m.q.end for m in between):
            out.append(convert(number.value, part.unit, "g"))
            if part.unit == "kg" and number.value >= _GRAMS:
                out.append(float(number.value))  # "put in one kilo ... another six hundred"
            if part.unit == "lb" and part.q.parts and number.value < _POUND:
                out.append(convert(number.value, "oz", "g"))  # "1 pound 9 ounces plus 1 for the drier"
            pair = pounds_and_ounces(talk.narration, number) if part.unit == "lb" else None
            out += [convert(pair[0] + pair[1] / 16, "lb", "g")] if pair else []
    return [g for g in out if g > 0]


def _as_pounds(m: Mass) -> tuple[float, str] | None:
    """Return "2.8 ounces" as the two pounds eight ounces that a recogniser may have heard so."""
    if m.unit != "oz" or m.q.parts or len(m.q.numbers) != 1 or m.q.numbers[0].places not in (1, 2):
        return None
    number = m.q.numbers[0]
    whole = int(number.value)
    ounces = round((number.value - whole) * 10**number.places)
    return (whole + ounces / 16, "lb") if whole and 0 < ounces < 16 else None


def _misheard(parts: list[Mass], value: float, unit: str) -> list[str]:
    """Return the reason to look at a total that its parts give only as pounds and ounces."""
    total = convert(value, unit, "g")
    if abs(sum(convert(p.value, p.unit, "g") for p in parts) - total) <= _OFF * total:
        return []
    odd = [p for p in parts if _as_pounds(p)]
    return [f"{odd[0].value:g} oz gives it only as pounds and ounces"] if odd else []
