"""Can its words mean another number, or none: split digits, decimal ounces, restarts, "open", "nothing"."""

from __future__ import annotations

from dictate.mentions.doubts.talk import Case, word_set
from dictate.mentions.plausible import fits
from dictate.mentions.values.rows import row_ohmed
from dictate.mentions.word_lists import word_list
from dictate.record.visit import Candidate
from dictate.vocabulary.load import table

_WITH_TENTHS = frozenset(("bar", "amp", "amps", "ampere", "amperes", "kelvin", "volt", "volts"))
"""Units behind which tenths are said in some languages, and by those who think in them."""

_WHICH = frozenset(("one", "two", "three", "four"))
_POINTED = frozenset(("pressure", "current", "vacuum"))
_LEADS = frozenset(
    ("on", "at", "is", "was", "'s", "to", "of", "about", "around", "reads", "plate", "down", "pulls", "draws",
     "up", ",", "now", "only", "just", "says", "the", "got", "suction", "head", "pressure", "amps", "nearly")
)  # fmt: skip
"""Words in front of a number that name no thing which is counted."""


def split_ounces(c: Case) -> str | None:
    """Doubt decimal ounces in a damaged text: "1.5 ounces" is how a recogniser writes one pound five."""
    r, number = c.reading, c.number
    if r.unit != "oz" or number is None or not number.written or number.places != 1 or not c.talk.damaged:
        return None
    whole, rest = divmod(round(number.value * 10), 10)
    if not rest or not 1 <= whole <= table("plausible")["moved"]["split_ounces"]:
        return None
    why = f"may have been {whole} pounds {rest} ounces"
    r.candidates.append(Candidate(value=whole + rest / 16, unit="lb", heard=r.heard, why=why))
    return why


def tenths_behind(c: Case) -> str | None:
    """Doubt "seven bar and four": the number behind may be tenths, and the value 7.4."""
    words, r = c.talk.words, c.reading
    if c.number is None or r.value is None or not float(r.value).is_integer():
        return None
    if (
        c.end - c.number.end != 1
        or words[c.number.end] not in _WITH_TENTHS
        or words[c.end : c.end + 1] != ["and"]
    ):
        return None
    tenths = c.talk.number_at.get(c.end + 1)
    if tenths is None or tenths.start != c.end + 1 or not 1 <= tenths.value <= 9 or tenths.places:
        return None
    if words[tenths.end : tenths.end + 1] not in ([], ["."], [","], [";"]):
        return None
    value = r.value + tenths.value / 10
    why = f"may be {value:g}"
    r.candidates.append(Candidate(value=value, unit=r.unit, heard=r.heard, why=why))
    return why


def split_digits(c: Case) -> str | None:
    """Doubt a digit with a unit that stands right behind or before another: "2 0 bar" was 2.0."""
    number = c.number
    if number is None or not number.written or number.places or not 0 <= abs(number.value) <= 9:
        return None
    lead, behind = c.talk.number_at.get(number.start - 1), c.talk.number_at.get(number.end)
    a, b = (lead, number) if lead is not None and lead.end == number.start else (number, behind)
    if a is None or b is None or a.end != b.start or not a.written or not b.written or a.places or b.places:
        return None
    degrees = c.reading.quantity == "temperature"
    if not (0 <= a.value <= 9 and 0 <= b.value <= 9) or not (degrees or c.reading.quantity in _POINTED):
        return None
    before = c.talk.words[a.start - 1] if a.start else ""
    if a is not number and (before not in _LEADS or a.start <= c.low):
        return None  # "fan 2 0 amps" is the second fan
    value = 10 * a.value + b.value if degrees else a.value + b.value / 10
    why = f"may be the one number {value:g}"
    c.reading.candidates.append(
        Candidate(value=value, unit=c.reading.unit, heard=f"{a.value:g} {b.value:g}", why=why)
    )
    return why


def stop_behind(c: Case) -> str | None:
    """Doubt the 8 of "8. 3 bar": the stop behind it may be a point, for a digit with a unit follows.

    The digit is doubted by itself (`broken_numbers.py`).
    """
    number, other, words = c.number, c.following, c.talk.words
    if number is None or other is None or other.number is None or not number.written or number.places:
        return None
    digit = other.number
    if c.end != number.end or words[c.end : c.end + 1] != ["."] or digit.start != c.end + 1:
        return None
    if not digit.written or len(words[digit.start]) != 1 or other.end == digit.end:
        return None
    if other.reading.quantity != c.reading.quantity:
        return None  # "head was 205. 9 amps": two values of two things
    value = float(f"{number.value:g}.{words[digit.start]}")
    why = f"may be the one number {value:g}"
    c.reading.candidates.append(Candidate(value=value, unit=c.reading.unit, heard=c.reading.heard, why=why))
    return why


def numbered_row(c: Case) -> str | None:
    """Doubt "compressor one forty one forty two forty": the one may say which, then it is 41, 42 and 40."""
    number, numbers, words = c.number, c.talk.number_at, c.talk.words
    if number is None or number.written:
        return None
    first, many = number, 1
    while (before := numbers.get(first.start - 1)) is not None and before.end == first.start:
        first, many = before, many + 1
    follower = numbers.get(number.end)
    if many == 1 and (follower is None or follower.start != number.end):
        return None
    named = first.form == "pair" and words[first.start] in _WHICH and first.start > 0
    if not named or words[first.start - 1] not in word_set("numbered"):
        return None
    return f"{words[first.start]!r} may say which {words[first.start - 1]}: then these are other numbers"


def restarted(c: Case) -> str | None:
    """Doubt a number with a second one right behind a filler: "five, uh, four"."""
    words = c.talk.words
    i = c.end
    fillers = 0
    while i < c.high and i - c.end < 4 and (words[i] == "," or words[i] in _FILLERS):
        fillers += words[i] in _FILLERS
        i += 1
    other = c.talk.number_at.get(i)
    if fillers and other is not None and c.number is not None and other.start != c.number.start:
        near = c.following
        if (
            near is not None
            and near.start <= i < near.end
            and near.reading.role == "measured"
            and c.loose
            and near.reading.unit == c.reading.unit
        ):
            return (
                None
                if c.reading.role == "retracted"
                else f"may have been said anew as {c.talk.n.heard(other.start, other.end)}"
            )
        return f"may have been said anew as {c.talk.n.heard(other.start, other.end)}"
    return None


_FILLERS = frozenset({"uh", "um", "er", "erm", "hmm", "no"})


def other_form(c: Case) -> str | None:
    """Doubt a number whose words can be two numbers, or begin one word earlier ("to 65", "L1 24")."""
    number, r = c.number, c.reading
    if number is None or r.value is None or c.value is None:
        return None
    named = c.start > c.low and c.talk.words[number.start - 1] in word_set("numbered")
    if number.form == "pair" and number.written and number.end - number.start > 1 and named:
        first = c.talk.words[number.start]
        rest = c.talk.n.heard(number.start + 1, number.end)
        r.candidates.append(
            Candidate(unit=r.unit, value=_plain_number(rest), heard=rest, why=f"{first} may be a name")
        )
        return f"can also be {first} and then {rest}"
    words = c.talk.words
    if (
        number.written
        and c.start
        and words[c.start - 1] in {"to", "too", "for", "fore"}
        and 10 <= number.value <= 99
        and not number.places
        and r.quantity in {"pressure", "voltage", "vacuum"}
    ):
        lead = "4" if words[c.start - 1].startswith("fo") else "2"
        before = words[max(c.low, c.start - 3) : c.start - 1]
        other = float(f"{lead}{number.value:g}")
        said = c.value is not None and c.value.quantity is not None
        if said and (r.unit in {"bar", "inHg"} or not fits(r.quantity, r.point, other, r.unit or "psi")):
            return None  # "up to 38 bar": no gauge shows 238
        if not before or (before[-1] not in word_set("to_after") and not before[-1].isdigit()):
            r.candidates.append(
                Candidate(
                    value=other,
                    unit=r.unit,
                    heard=c.talk.n.heard(c.start - 1, c.end),
                    why="the word before may be a digit",
                )
            )
            return f"{words[c.start - 1]!r} before it may be a digit, then it is {other:g}"
    return None


def _plain_number(text: str) -> float | None:
    try:
        return float(text.replace(",", ""))
    except ValueError:
        return None


_BEFORE_OPEN = frozenset(("is", "'s", "was", "wide", "dead", "one", "reads", "read", "completely", "clean"))


def open_or_nothing(c: Case) -> str | None:
    """Doubt "open" that no meter said, and "nothing" that goes on ("with nothing calling")."""
    r = c.reading
    words = c.talk.words
    sentence = words[c.low : c.high]
    said = words[c.start : c.end]
    if r.state == "open" and "open" in said:
        near = set(words[max(c.low, c.start - 8) : c.start])
        if near & word_set("conducts") and not {"door", "doors"} & near:
            return None  # "the hot gas valve coil is dead open": a coil does not stand open
        lead = [w for w in words[max(c.low, c.start - 4) : c.start] if w not in _BEFORE_OPEN and w != ","]
        if lead and lead[-1] in word_list("values_row_names"):
            heated = bool(r.component) and "heater" in (r.component or "")
            rowed = heated or row_ohmed(c.talk.n, words, c.start)
            if rowed or not word_list("ohms_told_units").isdisjoint(words[c.end : c.end + 8]):
                return None  # "ohmed the heaters, 31 and 33, and the third is wide open"
        if near & word_set("stands_open") and not near & word_set("meter"):
            return "what stands open here need not be a circuit"
        meter = near & word_set("meter")
        if not meter and any(
            x.reading.state == "open" and x.start != c.start and c.low <= x.start < c.high
            for x in (c.previous, c.following)
            if x is not None
        ):
            return "may be the verdict on the same reading"
        if not meter and word_set("verdict") & set(c.clause_before(8)):
            return "may be a verdict and not what a meter said"
        if not meter and r.component is None and not word_set("meter") & set(sentence):
            return 'no meter is spoken of beside "open"'
    if r.state == "value" and r.value == 0 and said[:1] in (["nothing"], ["dead"]):
        nxt = c.after(1)
        if r.quantity == "voltage" and {"draws", "drawing", "pulls", "pulling", "amps"} & set(c.before(4)):
            return "amps are spoken of beside it"
        if said == ["nothing"] and nxt and nxt[0].isalpha() and nxt[0] not in word_set("nothing_on"):
            return '"nothing" may go with the words behind it'
    return None
