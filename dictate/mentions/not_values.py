"""Numbers that are no value of anything measured: names, clock times, dates, counts, sizes, places.

`kept_out(narration)` gives the token spans with a plain reason each. A number in such a span is never a bare
reading; one with a unit said is still looked at, except inside a model, serial or part number.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import TYPE_CHECKING

from dictate.mentions.narration import Narration, Token
from dictate.mentions.refrigerants import find_refrigerants
from dictate.mentions.spoken_numbers import Number, find_numbers, numbers_by_end, numbers_by_start
from dictate.mentions.unit_words import unit_phrases
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import table

if TYPE_CHECKING:
    from dictate.mentions.labels import LabelAt

MONTHS = frozenset(
    [
        "january",
        "february",
        "march",
        "april",
        "may",
        "june",
        "july",
        "august",
        "september",
        "october",
        "november",
        "december",
        "jan",
        "feb",
        "mar",
        "apr",
        "jun",
        "jul",
        "aug",
        "sept",
        "sep",
        "oct",
        "nov",
        "dec",
    ]
)
_DAYS = frozenset(["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"])
_IDENTITY = (
    ("model",), ("models",), ("serial",), ("part", "number"), ("part", "no"), ("part",), ("s", "n"),
    ("m", "n"),
    ("invoice",), ("ticket",), ("po",), ("p", "o"), ("work", "order"), ("order", "number"),
    ("unit", "number"),
    ("asset",), ("phone",), ("zip",), ("store", "number"), ("store",), ("job", "number"), ("case", "number"),
    ("confirmation",), ("date", "code"), ("certificate",), ("cert", "number"), ("license",), ("permit",),
)  # fmt: skip
_IDENTITY_BY_FIRST = {word: [c for c in _IDENTITY if c[0] == word] for word in {c[0] for c in _IDENTITY}}
_IDENTITY_GLUE = word_list("not_values_identity_glue")
_LETTER_WORDS = frozenset(
    [
        "alpha",
        "bravo",
        "charlie",
        "delta",
        "echo",
        "foxtrot",
        "golf",
        "hotel",
        "india",
        "juliet",
        "kilo",
        "lima",
        "mike",
        "november",
        "oscar",
        "papa",
        "quebec",
        "romeo",
        "sierra",
        "tango",
        "uniform",
        "victor",
        "whiskey",
        "xray",
        "yankee",
        "zulu",
        "double",
        "triple",
    ]
)


@cache
def _set(key: str) -> frozenset[str]:
    return frozenset(table("cues")["exclude"][key])


def identity_spans(narration: Narration) -> list[tuple[int, int]]:
    """Return the token spans of model, serial, part and other numbers that name a thing."""
    done: list[tuple[int, int]] | None = narration.found.get("identity")
    if done is not None:
        return done
    tokens = narration.tokens
    words = [t.lower for t in tokens]
    numbers = {
        t
        for n in find_numbers(narration)
        if n.form not in {"ordinal", "clock", "counted"}
        for t in range(n.start, n.end)
    }
    out: list[tuple[int, int]] = []
    i = 0
    while i < len(tokens):
        cue = next(
            (c for c in _IDENTITY_BY_FIRST.get(words[i], ()) if tuple(words[i : i + len(c)]) == c), None
        )
        if cue is None or (cue == ("part",) and words[i - 1 : i] == ["new"]):
            i += 1
            continue
        j = i + len(cue)
        glue = 0
        while j < len(tokens) and words[j] in _IDENTITY_GLUE and glue < 4 and words[j] not in {"-", "dash"}:
            j += 1
            glue += 1
        begin = j
        while j < len(tokens) and _names_something(tokens, j, numbers, begin):
            j += 1
        if j > begin:
            out.append((begin, j))
            i = j
        else:
            i += 1
    # Single digits in a row are a telephone or another number that is read out.
    digits = [t.index for t in tokens if len(t.lower) == 1 and t.lower.isdigit()]
    for k in range(len(digits)):
        j = k
        while j + 1 < len(digits) and digits[j + 1] == digits[j] + 1:
            j += 1
        if j - k >= 3:
            out.append((digits[k], digits[j] + 1))
    # A code of letters and digits is a name wherever it stands ("DH-1204", "WCU-30").
    for token in tokens:
        if (
            any(c.isdigit() for c in token.text)
            and any(c.isalpha() for c in token.text)
            and len(token.text) > 2
        ):
            out.append((token.index, token.index + 1))
    out += _spelled_codes(narration)
    narration.found["identity"] = out
    return out


_WIRING = frozenset("abclnrstuvwg")
"""Letters that name terminals and legs, two of which name the pair between them."""


def _spelled_codes(narration: Narration) -> list[tuple[int, int]]:
    """Return letters and the number said behind them: "CU forty-two", "W F three oh", "S P six zero, N".

    At least two letters, spelled one by one or written as one word in capitals, and no word of the trade
    ("TD 10", "DC 24", "C R 2.1"): nothing that is measured has such a name. Behind "is a" or "a" it is one
    in any case.
    """
    from dictate.mentions.labels import find_components, find_labels, find_points

    tokens = narration.tokens
    starts = numbers_by_start(narration)
    units = unit_phrases(narration)
    known: set[int] | None = None
    out: list[tuple[int, int]] = []
    for number in starts.values():
        end = number.start - 1 if tokens[number.start - 1].lower in {"dash", "hyphen", "-"} else number.start
        i = end
        while i > 0 and len(tokens[i - 1].lower) == 1 and tokens[i - 1].lower.isalpha():
            i -= 1
        while i < end and tokens[i].text in {"a", "i", "I", "o"}:
            i += 1  # "on a C U forty-two"
        whole = tokens[i - 1].text if i == end and i > 0 else ""
        if whole.isupper() and whole.isalpha() and 2 <= len(whole) <= 4:
            i -= 1
        letters = "".join(tokens[k].lower for k in range(i, end))
        if (
            len(letters) < 2
            or number.negative
            or number.form in {"clock", "ordinal", "counted", "decimal", "fraction"}
        ):
            continue
        if number.places and number.form != "two_digits":
            continue
        if number.end in units:
            continue
        shouted = i > 0 and tokens[i - 1].text.isupper() and len(tokens[i - 1].text) > 1
        named = i > 0 and tokens[i - 1].lower in word_list("not_values_code_leads")
        named = named or _plate_goes_on(narration, number.end)
        wired = len(letters) == 2 and set(letters) <= _WIRING
        if shouted or (not named and (wired or letters in word_list("not_values_no_codes"))):
            continue
        if known is None:
            known = {t for x in find_labels(narration) for t in range(x.start, x.end)}
            known |= {t for c in find_components(narration) for t in range(c.start, c.end)}
            known |= {t for r in find_refrigerants(narration) for t in range(r.start, r.end)}
        pointed = not named and any(p.start < number.end and p.end > i for p in find_points(narration))
        if known.isdisjoint(range(i, number.end)) and not pointed:
            out.append((i, _code_end(tokens, starts, number.end)))
    return out


def _plate_goes_on(narration: Narration, end: int) -> bool:
    """Tell whether a serial number or the refrigerant follows: "P T forty-eight, R two ninety"."""
    tokens = narration.tokens
    if end + 1 >= len(tokens) or tokens[end].lower != ",":
        return False
    return tokens[end + 1].lower in {"serial", "model"} or any(
        n.start == end + 1 for n in find_refrigerants(narration)
    )


def _code_end(tokens: Sequence[Token], starts: dict[int, Number], end: int) -> int:
    """Return where a code ends that goes on behind its first number: "TX dash four four eight dash one"."""
    while end + 1 < len(tokens) and tokens[end].lower in {"dash", "hyphen", "slash"}:
        if end + 1 in starts:
            end = starts[end + 1].end
        elif len(tokens[end + 1].lower) == 1:
            end += 2
        else:
            break
    return end


def _names_something(tokens: Sequence[Token], j: int, numbers: set[int], begin: int) -> bool:
    token = tokens[j]
    low = token.lower
    if token.lower in {"-", "dash", "slash", "/"}:
        return j + 1 < len(tokens) and j > begin
    if any(c.isdigit() for c in token.text):
        return True
    if j in numbers:
        return low not in {"and", "a", "an"} or (low == "a" and token.text == "A")
    if len(low) == 1 and low.isalpha():
        # A spelled letter; "a" and "i" in lower case go on being words
        return low not in {"a", "i"} or token.text.isupper()
    if low in _LETTER_WORDS or low in {"oh", "zero"}:
        return True
    return token.text.isupper() and len(token.text) <= 6 and low.isalpha()


def _another_time(narration: Narration, number: Number) -> bool:
    """Tell whether a time of day was said shortly before: "at 9 10 in the morning ..., at 9 50 still 250"."""
    tokens = narration.tokens
    words = [t.lower for t in tokens[max(0, number.start - 14) : number.start]]
    text = " ".join(words)
    return any(
        w in text
        for w in ("in the morning", "in the afternoon", "this morning", "o'clock", " am ", " pm ", "at noon")
    )


def clock_like(number: Number) -> bool:
    """Tell whether a bare number has the shape of a clock time: 9, nine fifteen, 915, 10 40."""
    value = number.value
    if not value.is_integer() or number.places or number.negative:
        return False
    if 1 <= value <= 12:
        return True
    return 100 <= value <= 2359 and value % 100 < 60 and (number.form in {"pair", "digits"} or number.written)


def is_clock(narration: Narration, number: Number) -> bool:
    """Tell whether the words around a number make it a time of day."""
    if _time_pair(narration, number):
        return True
    if not clock_like(number):
        return False
    tokens = narration.tokens
    last3 = [t.lower for t in tokens[max(0, number.start - 3) : number.start]]
    if last3 in (["left", "it", "at"], ["leaving", "it", "at"], ["left", "her", "at"]):
        return False
    after = [t.lower for t in tokens[number.end : number.end + 4]]
    if after[:1] and after[0] in {"am", "pm", "o'clock", "oclock"}:
        return True
    if after[:2] in (["a", "m"], ["p", "m"], ["in", "the"]) and (
        after[0] != "in" or (after[2:3] and after[2] in {"morning", "afternoon", "evening"})
    ):
        return True
    if after[:1] == ["this"] and after[1:2] and after[1] in {"morning", "afternoon", "evening"}:
        return True
    before = [t.lower for t in tokens[max(0, number.start - 6) : number.start]]
    text = " ".join(before)
    if (
        before[-2:]
        in (
            ["half", "past"],
            ["quarter", "past"],
            ["quarter", "to"],
            ["quarter", "till"],
            ["quarter", "of"],
            ["ten", "to"],
            ["ten", "past"],
            ["five", "past"],
            ["five", "to"],
            ["twenty", "past"],
            ["twenty", "to"],
        )
        and number.value <= 12
    ):
        return True
    if (
        after[:1] == ["past"]
        and number.value <= 30
        and any(n.start == number.end + 1 for n in find_numbers(narration))
    ):
        return True  # "at ten past two"
    verbs = _set("clock")
    if (
        number.start > 1
        and before[-1:]
        and before[-1] in {"at", "by", "until", "till"}
        and number.value >= 100
        and number.form == "pair"
    ) and any(n.end == number.start - 1 for n in find_numbers(narration)):
        return True  # "480 at eleven thirty"
    if before[-1:] == ["at"] and number.written and len(tokens[number.start].lower) == 4:
        return True
    if (
        before[-2:] in (["on", "at"], ["off", "at"], ["restarted", "at"], ["down", "at"], ["running", "at"])
        and number.value >= 100
        and number.form == "pair"
    ):
        return True
    if before[-1:] == ["at"] and number.value >= 100 and _another_time(narration, number):
        return True
    if before[-1:] and before[-1] in word_list("not_values_is_clock_2"):
        moves = word_list("not_values_is_clock") & {
            t.lower for t in tokens[max(0, number.start - 10) : number.start]
        }
        cues = [w for w in verbs if (" " in w and f" {w} " in f" {text} ") or w in before]
        cues = [
            w
            for w in cues
            if w not in {"in at", "out at", "off at", "opens at", "closes at"} or not moves & set(before)
        ]
        if cues:
            return True
    return _time_range(narration, number)


_CLAUSE_ENDS = frozenset((".", ",", ";", "?", "!"))
_TIME_LEADS = frozenset(("at", "by", "until", "till", "til", "from", "to", "since", "around"))


def _dotted_time(narration: Narration, number: Number) -> bool:
    """Tell whether the number is a time as a recogniser writes it with a dot: "250 still at 12.10".

    Measured decimals are written without a nought at the end, so full tens and fives of minutes behind "at"
    are a time, and other minutes where a coming or a going is told.
    """
    tokens = narration.tokens
    if not number.written or number.places != 2 or number.negative or not 1 <= number.value < 24:
        return False
    minutes = round(number.value * 100) % 100
    before = [t.lower for t in tokens[max(0, number.start - 6) : number.start]]
    if (
        minutes > 59
        or before[-1:] == []
        or before[-1] not in _TIME_LEADS
        or number.end in unit_phrases(narration)
    ):
        return False
    from dictate.mentions.labels import find_components, find_labels

    lead = number.start - 1
    valued = {n.start for n in find_numbers(narration)}

    def leads_here(end: int) -> bool:
        """Tell whether a thing named before it, with no value in between, may have this value."""
        between = range(end, lead)
        return (
            end <= lead
            and lead - end <= 4
            and valued.isdisjoint(between)
            and not any(tokens[t].lower in _CLAUSE_ENDS for t in between)
        )

    ends = [x.end for x in find_labels(narration)] + [x.end for x in find_components(narration)]
    named = any(leads_here(end) for end in ends)
    told = bool(_set("clock") & set(before))
    return told or (minutes % 5 == 0 and not named)


def _not_at_zero(tokens: Sequence[Token], start: int) -> bool:
    """Tell whether a needle was said not to be at its nought: "the needle was never on zero"."""
    before = [t.lower for t in tokens[max(0, start - 4) : start]]
    return before[-1:] in (["on"], ["at"]) and any(w in {"never", "not"} or w.endswith("n't") for w in before)


def _surely_time(narration: Narration, number: Number) -> bool:
    """Tell whether a number can be nothing but a time: "nitrogen at ten oh five", "at four thirty it was 38".

    A number of that shape may as well be a pressure or a voltage ("head at two thirty", "12 amps at two oh
    eight"). So a value must stand beside it that the time belongs to.
    """
    tokens = narration.tokens
    start, end = number.start, number.end
    before = tokens[start - 1].lower if start else ""
    if _minutes_beside_an_hour(narration, number):
        return True
    value = number.value
    if (
        before not in {"at", "by"}
        or not value.is_integer()
        or number.places
        or number.negative
        or not (100 < value < 1260 and value % 100 < 60 and 1 <= value // 100 <= 12)
        or number.form not in {"pair", "digits"}
        or end in unit_phrases(narration)
    ):
        return False
    first, last = _sentence_around(tokens, start)
    words = [t.lower for t in tokens[first:last]]
    here = start - first
    if word_list("not_values_electric_words").intersection(words):
        return False
    after = words[end - first] if end < last else "."
    values = [
        n for n in find_numbers(narration) if first <= n.start < last and n.form not in {"ordinal", "clock"}
    ]
    later = any(n.start > end for n in values)
    if after in word_list("not_values_stands") and any(n.start == end + 1 for n in values):
        return True
    if after in {"on", "of", "at", "psi", "head", "suction", "or", "to", "-"}:
        return False
    second = words[here - 2] if here > 1 else "."
    if (
        later
        and (here < 2 or second in {",", ";", "and", "then"})
        and after in word_list("not_values_time_goes_on")
    ):
        return True
    closes = after in {".", ",", ";", "still", "and", "?"}
    if (
        second in {"on", "off"}
        and value > 600
        and closes
        and not word_list("not_values_switches").intersection(words)
    ):
        return True  # "nitrogen on at nine oh eight"
    told = [n for n in values if n.end < start and start - n.end <= 5]
    return (
        closes
        and bool(told)
        and second not in word_list("not_values_presents") | {",", ";"}
        and not any(w in {",", ";"} for w in words[told[-1].end - first : here])
        and not any(label.end == start - 1 and label.start >= told[-1].end for label in _pressures(narration))
    )


def _pressures(narration: Narration) -> list[LabelAt]:
    from dictate.mentions.labels import find_labels

    return [x for x in find_labels(narration) if narration.tokens[x.start].lower not in {"nitrogen", "nitro"}]


def _sentence_around(tokens: Sequence[Token], at: int) -> tuple[int, int]:
    """Return the tokens between the full stops around a token."""
    first = at
    while first > 0 and at - first < 40 and tokens[first - 1].lower not in {".", "?", "!"}:
        first -= 1
    last = at
    while last < len(tokens) and last - at < 40 and tokens[last].lower not in {".", "?", "!"}:
        last += 1
    return first, last


def _minutes_beside_an_hour(narration: Narration, number: Number) -> bool:
    """Tell whether a number is a part of "ten of two", "at 25 after", "five to eleven"."""
    tokens = narration.tokens
    starts, ends = numbers_by_start(narration), numbers_by_end(narration)
    leads = {"at", "by", "around", "about", "until", "till"}
    for minutes in (number, ends.get(number.start - 1)):
        if minutes is None or minutes.value not in {5, 10, 20, 25} or minutes.places or not minutes.start:
            continue
        link = tokens[minutes.end].lower if minutes.end < len(tokens) else "."
        if link not in {"after", "past", "of", "to", "till", "til", "before"}:
            continue
        if tokens[minutes.start - 1].lower not in leads:
            continue
        hour = starts.get(minutes.end + 1)
        behind = tokens[minutes.end + 1].lower if minutes.end + 1 < len(tokens) else "."
        if hour is None:
            if number is minutes and link in {"after", "past", "till", "til"} and behind in {".", ",", ";"}:
                return True
            continue
        whole = hour.value.is_integer() and 1 <= hour.value <= 12 and not hour.places
        if whole and hour.end not in unit_phrases(narration) and number in (minutes, hour):
            return True
    return False


def _price(narration: Narration, number: Number) -> bool:
    """Tell whether a number is money: "two eighty for the labor", "quoted him twelve fifty"."""
    tokens = narration.tokens
    before = [t.lower for t in tokens[max(0, number.start - 3) : number.start]]
    if number.value < 10 or _label_before(narration, number.start):
        return False
    if word_list("not_values_prices") & set(before) and not {",", "."} & set(before):
        return True
    after = [t.lower for t in tokens[number.end : number.end + 3]]
    paid = after[2:] if after[1:2] in (["the"], ["my"], ["his"]) else after[1:2]
    return after[:1] == ["for"] and paid[:1] != [] and paid[0] in word_list("not_values_paid_for")


def _to_come(narration: Narration, number: Number) -> bool:
    """Tell whether a number names what will be done: "118 and 120 next week", "doing 114 tomorrow"."""
    tokens = narration.tokens
    k = number.end
    follows = numbers_by_start(narration).get(k + 1)
    if follows is not None and tokens[k].lower in {"and", ","}:
        k = follows.end
    words = [t.lower for t in tokens[k : k + 2]]
    return words[:1] == ["tomorrow"] or words in [
        ["next", w] for w in ("week", "month", "visit", "trip", "year")
    ]


def _numbered_thing(narration: Narration, number: Number) -> bool:
    """Tell whether a number tells which one it is: "this is trailer 47", "the open multideck, case 12".

    A case or a trailer also has a temperature. So it is a number only in the first sentence of a narration
    or where something is introduced.
    """
    tokens = narration.tokens
    i = number.start - 1
    if i < 0 or tokens[i].lower not in word_list("not_values_numbered") or number.places or number.negative:
        return False
    after = tokens[number.end].lower if number.end < len(tokens) else "."
    if after not in {",", ".", ";", "is", "'s", "has", "on", "at", "in", "next"}:
        return False
    lead = tokens[i - 1].lower if i else "."
    if lead in {"on", "at", "for", "to"}:
        return True
    if lead in {"is", "'s"}:
        return i > 1 and tokens[i - 2].lower in {"this", "that", "it"}
    return lead in {",", "."} and not any(t.lower in {".", "?", "!"} for t in tokens[:i])


def _time_pair(narration: Narration, number: Number) -> bool:
    """Tell whether the number is half of "started 13 20" as a recogniser writes it."""
    tokens = narration.tokens
    starts, ends = numbers_by_start(narration), numbers_by_end(narration)
    for first in (number, ends.get(number.start)):
        if first is None:
            continue
        second = starts.get(first.end)
        hours = first.written and first.value.is_integer() and 0 <= first.value <= 23
        if second is None or not hours or number not in (first, second):
            continue
        minutes = second.written and len(tokens[second.start].lower) == 2 and 0 <= second.value <= 59
        before = [t.lower for t in tokens[max(0, first.start - 3) : first.start]]
        if minutes and set(before) & (_set("clock") | {"until", "to", "from"}):
            return True
        if minutes and before[-1:] == ["at"] and (first.start - 1) in ends:
            return True  # "box 39 at 10 05"
    return False


def _time_range(narration: Narration, number: Number) -> bool:
    """Tell whether the number is an end of "nine fifteen to ten forty", alone in its clause."""
    tokens = narration.tokens
    starts, ends = numbers_by_start(narration), numbers_by_end(narration)
    for first, second in ((number, starts.get(number.end + 1)), (ends.get(number.start - 1), number)):
        if first is None or second is None:
            continue
        between = [t.lower for t in tokens[first.end : second.start]]
        if between not in (["to"], ["till"], ["until"], ["-"]):
            continue
        shapes = [n.form == "clock" or clock_like(n) for n in (first, second)]
        if not all(shapes):
            continue
        before = tokens[first.start - 1].lower if first.start else "."
        after = tokens[second.end].lower if second.end < len(tokens) else "."
        one_clock = first.form == "clock" or second.form == "clock"
        long = first.value >= 100 or second.value >= 100 or one_clock
        lead = tokens[first.start - 2].lower if before == "from" and first.start > 1 else before
        alone = (
            (before != "from" or lead in {".", ",", "!", "?"})
            and before in {".", "from", ",", "!", "?"}
            and after in {".", ",", "!", "?", "and", "with"}
        )
        whole = alone and lead in {".", "!", "?"} and max(first.value, second.value) <= 12
        if alone and (long or whole):
            return True
    return False


def kept_out(narration: Narration) -> dict[int, str]:
    """Return token index -> reason, for the first token of each number that cannot be a bare value."""
    done: dict[int, str] | None = narration.found.get("kept_out")
    if done is not None:
        return done
    tokens = narration.tokens
    named = {t for s, e in identity_spans(narration) for t in range(s, e)}
    units = unit_phrases(narration)
    out: dict[int, str] = {}
    for number in find_numbers(narration):
        start, end = number.start, number.end
        before = tokens[start - 1].lower if start else ""
        second = tokens[start - 2].lower if start > 1 else ""
        after = tokens[end].lower if end < len(tokens) else ""
        if not named.isdisjoint(range(start, end)):
            out[start] = "name"
        elif number.value == 0 and tokens[start].lower == "zero" and after in {"the", "my", "your"}:
            out[start] = "count"  # "didn't zero the leads"
        elif number.value == 0 and _not_at_zero(tokens, start):
            out[start] = "count"
        elif number.form in {"ordinal", "clock", "counted"}:
            out[start] = "clock" if number.form == "clock" else "ordinal"
        elif number.pronoun and before != "between":
            out[start] = "pronoun"
        elif _dotted_time(narration, number) or _surely_time(narration, number):
            out[start] = "time"
        elif end not in units and (_price(narration, number) or _to_come(narration, number)):
            out[start] = "price"
        elif end not in units and _numbered_thing(narration, number):
            out[start] = "name"
        elif is_clock(narration, number):
            out[start] = "clock"
        elif (
            before in MONTHS
            or after in MONTHS
            or before in _DAYS
            or (
                1950 <= number.value <= 2050
                and before in {"in", "since", "from", "of", "year"}
                and number.form in {"pair", "plain", "digits"}
            )
        ):
            out[start] = "date"
        elif (
            before in _set("before")
            and not (before in _SMALL_NAMES and _too_big(number))
            and not _label_before(narration, start)
        ):
            out[start] = "name"
        elif (
            (before in {"a", "per", "each", "times"} and second in {"times", "cubes", "slices"})
            or (after in _set("after") and end not in units and not _measured_after_all(narration, number))
            or _small_word(narration, number)
        ):
            out[start] = "count"
        elif (
            after == "/"
            and end + 1 < len(tokens)
            and tokens[end + 1].lower[0].isdigit()
            and not number.places
        ):
            out[start] = "size"
        elif (
            after == "day"
            or (
                after == "a"
                and end + 1 < len(tokens)
                and tokens[end + 1].lower in {"day", "week", "month", "year"}
            )
            or _counts_noun(narration, number)
            or _room_number(narration, number)
        ):
            out[start] = "count"
        elif after in {"by", "x", "×"} or before in {"by", "x", "×"}:
            neighbour = _neighbour_by(narration, number)
            if neighbour and not _by_the_clock(narration, number):
                out[start] = "size"
    narration.found["kept_out"] = out
    return out


def _measured_after_all(narration: Narration, number: Number) -> bool:
    """Tell whether a number in front of "of" is a value: "six of superheat"."""
    from dictate.mentions.labels import find_labels

    tokens = narration.tokens
    if number.places:
        return True
    labels = find_labels(narration)
    if any(label.end == number.start and not label.label.weak for label in labels):
        return True
    if tokens[number.end].lower == "of":
        ahead = {t.lower for t in tokens[number.end + 1 : number.end + 4]}
        if ahead & {"rated", "plate", "nameplate"}:
            return True  # "pulled 41 of the rated 46"
        if ahead & (word_list("readings_spreads") | {"nitrogen", "nitro"}):
            return True  # "thirty six of pickup", "three hundred of dry nitrogen"
        return any(
            label.start in {number.end + 1, number.end + 2} and label.label.quantity for label in labels
        )
    return False


_PRESENTS = word_list("not_values_presents")


def _small_word(narration: Narration, number: Number) -> bool:
    """Tell whether a small whole number is a count or a pronoun: nothing in front of it presents a value."""
    if number.places or number.negative or not number.value.is_integer() or not 1 <= number.value <= 4:
        return False
    if number.end - number.start != 1:
        return False
    there = [t.lower for t in narration.tokens[max(0, number.start - 3) : number.start]]
    if there[-2:] in (["there", "are"], ["there", "'s"], ["there", "is"], ["there", "were"]):
        return True
    if there[-1:] == ["between"] or ("between" in there[:-1] and there[-1:] == ["and"]):
        return False
    from dictate.mentions.labels import find_components, find_labels

    tokens = narration.tokens
    before = tokens[number.start - 1].lower if number.start else "."
    after = tokens[number.end].lower if number.end < len(tokens) else "."
    at = number.start - (before in {"at", "is", "was", "'s", "to", "on"})
    cold = next((x for x in find_labels(narration) if x.end == at and x.label.default == "temperature"), None)
    if cold is not None and at < number.start and after in word_list("not_values_small_word_3"):
        return False  # "boxes at 4 after half an hour"
    named = next((x for x in find_labels(narration) if x.end == number.start), None)
    pointed = named is not None and named.start and named.end - named.start == 1
    if named is not None and pointed and tokens[number.start].lower == "one":
        kind = tokens[named.start - 1].lower
        if kind in {"the", "this", "that", "a"}:
            return True  # "it's the cellar cooler, the split one"
    if named is not None:
        return tokens[number.start].lower == "one" and after not in {".", ",", "even", "and", "flat", "?"}
    if tokens[number.start].lower == "one":
        return not (
            before in _PRESENTS - {"and", "or", "of", ",", "on", "to", "from"}
            and after in word_list("not_values_small_word_2")
        )
    if any(c.end == number.start for c in find_components(narration)):
        return False
    return before not in _PRESENTS or after not in word_list("not_values_small_word")


_SMALL_NAMES = word_list("not_values_small_names")


def _too_big(number: Number) -> bool:
    """Tell whether a number is no name of one of a few: decimals, pairs of hundreds, more than 30."""
    return bool(number.places) or number.value > 30 or number.form == "pair"


def _room_number(narration: Narration, number: Number) -> bool:
    """Tell whether a number names a room: "Room 108", "Room 1 12". No room is so warm."""
    tokens = narration.tokens
    before = tokens[number.start - 1].lower if number.start else ""
    if before not in {"room", "suite", "apartment", "apt", "cabin", "bay", "aisle"} or number.places:
        return False
    return number.value >= 100 or (number.written and number.end - number.start > 1)


def _counts_noun(narration: Narration, number: Number) -> bool:
    """Tell whether a number at the start of a sentence counts the noun behind it: "Eight hole cabinet"."""
    tokens = narration.tokens
    start, end = number.start, number.end
    before = tokens[start - 1].lower if start else "."
    if before not in {".", "?", "!"} or number.places or not 1 <= number.value <= 24 or end >= len(tokens):
        return False
    from dictate.mentions.labels import find_labels

    after = tokens[end].lower
    if after == "of" and _measured_after_all(narration, number):
        return False
    if any(x.start == end for x in find_labels(narration)) or end in unit_phrases(narration):
        return False
    return after.isalpha() and after not in word_list("not_values_counts_noun")


def _by_the_clock(narration: Narration, number: Number) -> bool:
    """Tell whether "39 by 3:30" says until when."""
    other = numbers_by_start(narration).get(number.end + 1)
    return other is not None and (other.form == "clock" or is_clock(narration, other))


def _neighbour_by(narration: Narration, number: Number) -> bool:
    """Tell whether "16 by 25 by 1" is a size: numbers on both sides of the word."""
    tokens = narration.tokens
    numbers = [n for n in find_numbers(narration) if not _dotted_time(narration, n)]
    starts = {n.start for n in numbers}
    ends = {n.end for n in numbers}
    after = (
        number.end < len(tokens) and tokens[number.end].lower in {"by", "x", "×"} and number.end + 1 in starts
    )
    before = (
        number.start > 1 and tokens[number.start - 1].lower in {"by", "x", "×"} and number.start - 1 in ends
    )
    return after or before


def _label_before(narration: Narration, start: int) -> bool:
    """Tell whether the word before is the end of a label ("suction line 41", "box temp at the case 38")."""
    from dictate.mentions.labels import find_labels, find_points

    ends: set[int] | None = narration.found.get("ends of labels")
    if ends is None:
        ends = {label.end for label in find_labels(narration)}
        ends |= {point.end for point in find_points(narration) if point.kind != "leg"}
        narration.found["ends of labels"] = ends
    return start in ends
