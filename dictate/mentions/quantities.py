"""Numbers with a unit said: `find_quantities(narration) -> list[Quantity]`, in order, without overlaps.

A unit that can mean two things keeps both meanings ("pounds" of refrigerant or of pressure, "inches" of pipe
or of vacuum, "K" of ohms or of kelvins): the finders decide from what was measured. Pounds and ounces, hours
and minutes, and the like said together are one quantity in the larger unit. Money, sizes and calendar times
come out as well, under their `kind`, so that nobody takes them for a reading.

    "three pounds eight ounces"  -> value 3.5, word "pound",  means (("lb", 1), ("psi", 1)), parts (3, 8)
    "between six and seven amps" -> 6 A (range "low") and 7 A (range "high")
    "12 gauge"                   -> kind "size"
    "2 pounds for ounces"        -> 2.25, with a reason: "for" may be the digit 4
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from dictate.mentions.narration import Narration, Token
from dictate.mentions.phrases import Phrase
from dictate.mentions.refrigerants import find_refrigerants
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.mentions.unit_words import unit_phrases, unit_words
from dictate.mentions.word_lists import word_list
from dictate.record.visit import Candidate
from dictate.vocabulary.load import table, word_set

FILLERS = word_list("quantities_fillers")
"""Sounds and words that may stand between a number and its unit without meaning anything."""


@dataclass(slots=True)
class Quantity:
    """A number with its unit at the tokens [start, end).

    `value` is the number as said, in the said unit `word` (an id of units.toml); `unit` is the first meaning
    in the record's units and `amount` the value in it. `parts` are the numbers it was put together from.
    `range` is "low" or "high" for the ends of a range, `change` "from" or "to" for a change said as one. A
    unit said once for both ends is `shared`.
    """

    start: int
    end: int
    value: float
    word: str
    kind: str
    means: tuple[tuple[str, float], ...]
    numbers: tuple[Number, ...]
    parts: tuple[float, ...] = ()
    range: str | None = None
    change: str | None = None
    shared: bool = False
    reasons: list[str] = field(default_factory=list)
    candidates: list[Candidate] = field(default_factory=list)

    @property
    def unit(self) -> str | None:
        """Return the first meaning as a unit of the record, None for what is no reading."""
        return self.means[0][0] if self.means else None

    @property
    def amount(self) -> float:
        """Return the value in `unit`."""
        return self.in_unit(self.unit) if self.unit else self.value

    def in_unit(self, unit: str | None) -> float:
        """Return the value in one of its meanings; unknown ones leave it as said."""
        for name, factor in self.means:
            if name == unit:
                return tidy(self.value * factor)
        return self.value

    def can_be(self, unit: str) -> bool:
        """Tell whether the said unit can mean this unit of the record."""
        return any(name == unit for name, _ in self.means)


def tidy(value: float) -> float:
    """Remove what binary arithmetic adds: 4.7 * 1000 is 4700, not 4700.000000000001."""
    return float(f"{value:.12g}")


def _after(narration: Narration, i: int) -> int:
    """Return the first token at or after i that is no filler and no joining hyphen."""
    tokens = narration.tokens
    while i < len(tokens) and (
        tokens[i].lower in FILLERS or (tokens[i].lower == "-" and not _spaced(narration, i))
    ):
        i += 1
    return i


def _spaced(narration: Narration, i: int) -> bool:
    return narration.tokens[i].space_before


_LETTERS = word_list("quantities_letters")


def _unit_at(narration: Narration, i: int, number: Number | None = None) -> Phrase | None:
    """Return the unit phrase right after a number that ends at token i."""
    j = _after(narration, i)
    phrase = unit_phrases(narration).get(j)
    if phrase is None:
        return None
    tokens = narration.tokens
    word = tokens[phrase.start]
    if narration.parted(i - 1, phrase.start):
        return None  # "... RLA 19.8" at the end of a line, "Circuit 2 ..." on the next
    if phrase.end - phrase.start == 1:
        low = word.lower
        # "a" is an article far more often than amps; a letter is a unit when glued to digits or a capital.
        if low in _LETTERS:
            glued = not word.space_before
            capital = word.text.isupper() and number is not None
            if low in {"a", "c"} and not glued and _row_of_letters(tokens, phrase.start):
                return None
            if low == "a" and not (glued or (capital and number is not None and number.written)):
                return None
            if low in word_list("quantities_unit_at") and not (glued or capital):
                nxt = tokens[phrase.end].lower if phrase.end < len(tokens) else "."
                weighed = (
                    low == "g"
                    and number is not None
                    and number.written
                    and (nxt.isalpha() and len(nxt) > 1)
                    and nxt not in word_set("number_words")
                )  # "Recovered 108 g into the bottle"
                if weighed:
                    return phrase
                if low in {"s", "h", "m", "w"} or nxt not in {".", ",", "and", "on", "at", "?", "!"}:
                    return None
        if low == "in" and word.text != "in.":
            return None
        if low == "phase" and number is not None and number.value not in {1, 2, 3}:
            return None  # "475 phase to phase"
        if (
            low in {"circuit", "section", "stage", "row", "door", "zone"}
            and number is not None
            and number.value > 24
        ):
            return None  # "121 circuit B"
        if low == "second" and number is not None:
            nxt = tokens[phrase.end].lower if phrase.end < len(tokens) else "."
            if number.form == "ordinal" or nxt in word_list("quantities_second_of"):
                return None  # "nine hundred first pull, four fifty second pull"
        if low == "flat" and not _turned(tokens, number, i):
            return None  # "fourteen flat": exactly fourteen
        if low in {"time", "times", "point", "head", "speed", "way", "foot"} and number is not None:
            # "head two ten" and "210 head" belong to what was measured: only a hyphen makes it a size
            joined = tokens[phrase.start - 1].text.endswith("-") and not word.space_before
            if low == "head" and not joined:
                return None
            if low == "foot" and tokens[i - 1].lower == "on":
                return None
    return phrase


def _turned(tokens: Sequence[Token], number: Number | None, i: int) -> bool:
    """Tell whether a flat is one of a nut or a spindle: "opened it one flat", "half a flat out"."""
    if number is not None and (number.value > 3 or number.form == "decimal"):
        return False
    near = {t.lower for t in tokens[max(0, i - 12) : i + 5]}
    return bool(near & word_list("quantities_turning"))


def _row_of_letters(tokens: Sequence[Token], at: int) -> bool:
    """Tell whether a capital behind a number goes on a row of names: "850 phase A, 870 B, 840 C"."""
    before = [t.text for t in tokens[max(0, at - 9) : at]]
    others = {"A", "B", "C"} - {tokens[at].text}
    named = any(
        w in others and before[i - 1].lower() in {"phase", "circuit", "leg"}
        for i, w in enumerate(before)
        if i
    )
    follows = [t.text for t in tokens[at + 1 : at + 5]]
    counted = any(w == "B" and before[i - 1][:1].isdigit() for i, w in enumerate(before) if i)
    return named or counted or (tokens[at].text == "A" and follows[:1] == [","] and "B" in follows)


_RANGE_WORDS = frozenset({"to", "and", "or", "-", "–", "through", "/"})
_CHANGE_VERBS = word_list("quantities_change_verbs")
HOMOPHONES = frozenset({"to", "too", "for", "fore", "ate", "won", "tree"})


def _range_of(narration: Narration, a: Number, b: Number) -> str | None:
    """Tell what joins two neighbouring numbers: "range", "change", "list" or nothing."""
    tokens = narration.tokens
    between = [t.lower for t in tokens[a.end : b.start] if t.lower not in FILLERS]
    if len(between) != 1 or between[0] not in _RANGE_WORDS:
        return None
    before = [t.lower for t in tokens[max(0, a.start - 4) : a.start]]
    word = between[0]
    if word == "and":
        return "range" if "between" in before else "list"
    if word == "or":
        return (
            "range" if abs(b.value - a.value) <= max(2.0, 0.35 * max(abs(a.value), abs(b.value))) else "list"
        )
    if word in {"-", "–"} and tokens[b.start - 1].space_before:
        return "list"
    if word == "/":
        return "list"
    if _CHANGE_VERBS & set(before):
        return "change"
    if b.value <= a.value:
        return "change"
    return "range"


def _joined(
    narration: Narration, numbers: Sequence[Number], n: int, phrase: Phrase
) -> tuple[Number, Phrase, bool] | None:
    """Return the smaller number and unit that follow a larger unit at once ("two pounds | six ounces")."""
    tokens = narration.tokens
    larger = unit_words()[phrase.key]
    if larger.joins is None:
        return None
    i = _after(narration, phrase.end)
    if i < len(tokens) and tokens[i].lower in {"and", ","}:
        i = _after(narration, i + 1)
    if i < len(tokens) and tokens[i].lower == "and":
        i = _after(narration, i + 1)
    nxt = next((m for m in numbers[n + 1 : n + 3] if m.start == i), None)
    if nxt is None:
        return None
    unit = _unit_at(narration, nxt.end, nxt)
    if unit is None or unit.key != larger.joins[0] or nxt.value >= larger.joins[1] or nxt.negative:
        return None
    return nxt, unit, True


def _article_quantities(narration: Narration, numbers: Sequence[Number]) -> list[Quantity]:
    """Find "a pound and a half", "half a pound", "a pound six ounces", "three quarters of a pound"."""
    tokens = narration.tokens
    units = unit_words()
    by_start = {n.start: (k, n) for k, n in enumerate(numbers)}
    inside = {t for n in numbers for t in range(n.start, n.end)}
    out: list[Quantity] = []
    for start, phrase in unit_phrases(narration).items():
        if start == 0 or phrase.key not in word_list("quantities_article_quantities"):
            continue
        if tokens[start - 1].lower not in {"a", "an"} or (start - 1) in inside:
            continue
        unit = units[phrase.key]
        begin, value, used = start - 1, 1.0, []
        k = start - 2
        if k >= 0 and tokens[k].lower == "of":
            k -= 1
        lead = next((n for n in numbers if n.end == k + 1 and n.form == "fraction" and n.value < 1), None)
        end = phrase.end
        parts: tuple[float, ...] = ()
        if lead is not None:
            begin, value, used = lead.start, lead.value, [lead]
        else:
            if tokens[start].lower.endswith("s") and phrase.end - start == 1:
                continue
            i = _after(narration, phrase.end)
            if i < len(tokens) and tokens[i].lower == "and":
                i += 1
            if i < len(tokens) and tokens[i].lower in {"a", "an"} and (i + 1) in by_start:
                i += 1
            found = by_start.get(i)
            if found is None and i in inside:
                found = next(((q, n) for q, n in enumerate(numbers) if n.start <= i < n.end), None)
            if found is not None:
                _, n = found
                following = _unit_at(narration, n.end, n)
                if (
                    n.form == "fraction"
                    and n.value < 1
                    and (following is None or following.key == phrase.key)
                ):
                    value, used, end = 1 + n.value, [n], n.end
                elif (
                    unit.joins
                    and following is not None
                    and following.key == unit.joins[0]
                    and n.value < unit.joins[1]
                ):
                    value, used, end = 1 + n.value / unit.joins[1], [n], following.end
                    parts = (1.0, n.value)
            if not used and tokens[start - 1].lower in {"a", "an"}:
                # "50 cents a pound", "per pound", "a second": a rate or an article, unless a mass is meant
                before = tokens[start - 2].lower if start > 1 else ""
                if phrase.key not in word_list("quantities_article_alone") or before in {
                    "feet",
                    "foot",
                    "gallons",
                    "miles",
                    "times",
                    "dollars",
                    "bucks",
                }:
                    continue
        if not used:
            used = [Number(begin, begin + 1, 1.0)]
        out.append(Quantity(begin, end, value, phrase.key, unit.kind, unit.means, tuple(used), parts))
    return out


def _homophone_quantities(narration: Narration) -> list[Quantity]:
    """Find a unit behind a word that sounds like a digit: "2 pounds for ounces", "charged ate ounces"."""
    data: dict[str, int] = table("numbers")["homophone"]
    tokens = narration.tokens
    out = []
    for start, phrase in unit_phrases(narration).items():
        if start == 0 or tokens[start - 1].lower not in data:
            continue
        if phrase.key not in word_list("quantities_homophone_quantities_3"):
            continue
        word = tokens[start - 1].lower
        if len(tokens[start].lower) == 1 and phrase.end - start == 1:
            continue  # "ate a sandwich"
        before = tokens[start - 2].lower if start > 1 else ""
        # "switched to ounces", "looking for amps" are plain English
        if word in {"to", "too", "for", "fore"} and (
            phrase.key not in {"ounce", "pound", "gram"}
            or before in word_list("quantities_homophone_quantities_2")
            or not (before in word_list("quantities_homophone_quantities") or before.isdigit())
        ):
            continue
        unit = unit_words()[phrase.key]
        digit = float(data[word])
        number = Number(start - 1, start, digit)
        q = Quantity(start - 1, phrase.end, digit, phrase.key, unit.kind, unit.means, (number,))
        q.reasons.append(
            f'"{tokens[start - 1].text}" before a unit may be the digit {digit:g} as a recogniser writes it'
        )
        out.append(q)
    return out


def find_quantities(narration: Narration) -> list[Quantity]:
    """Return every number with a unit of the narration, in order; computed once per narration."""
    done: list[Quantity] | None = narration.found.get("quantities")
    if done is not None:
        return done
    tokens = narration.tokens
    # The digits of a refrigerant's name are no amount of anything.
    names = {t for r in find_refrigerants(narration) for t in range(r.start, r.end)}
    numbers = [n for n in find_numbers(narration) if names.isdisjoint(range(n.start, n.end))]
    units = unit_words()
    out: list[Quantity] = []
    articles = _article_quantities(narration, numbers)
    used: set[int] = {id(n) for q in articles for n in q.numbers}
    for q in articles:
        _bare_seconds(narration, numbers, q, used)
    out += articles
    homophones = {q.start: q for q in _homophone_quantities(narration)}
    taken_homophones: set[int] = set()
    for n, number in enumerate(numbers):
        if id(number) in used or number.form in {"clock", "ordinal", "counted"}:
            continue
        start = number.start
        sign = unit_phrases(narration).get(start - 1) if start else None
        if sign is not None and units[sign.key].prefix:
            phrase: Phrase | None = sign
            start -= 1
        else:
            phrase = _unit_at(narration, number.end, number)
        if phrase is None:
            continue
        unit = units[phrase.key]
        if (
            tokens[number.start].lower == "one"
            and number.end - number.start == 1
            and _plural(tokens[phrase.end - 1].lower)
        ):
            continue  # "that one ohms out at 960": the word is a pronoun
        end = max(number.end, phrase.end)
        q = Quantity(start, end, number.value, phrase.key, unit.kind, unit.means, (number,))
        after = Phrase(phrase.start, end, phrase.key)
        small = _joined(narration, numbers, n, after)
        if small is not None and unit.joins is not None:
            second, second_unit, _ = small
            q.value = number.value + second.value / unit.joins[1]
            q.parts = (number.value, second.value)
            q.numbers = (number, second)
            q.end = second_unit.end
            used.add(id(second))
        elif unit.joins is not None:
            i = _after(narration, end)
            if i < len(tokens) and tokens[i].lower == "and":
                i += 1
            heard = homophones.get(i)
            if heard is not None and heard.word == unit.joins[0]:
                q.value = number.value + heard.value / unit.joins[1]
                q.parts = (number.value, heard.value)
                q.numbers = (number, heard.numbers[0])
                q.end = heard.end
                q.reasons += heard.reasons
                q.candidates.append(
                    Candidate(
                        value=number.value,
                        unit=q.unit,
                        heard=narration.heard(start, end),
                        why="without the ounces",
                    )
                )
                taken_homophones.add(i)
            else:
                _bare_ounces(narration, numbers, n, q, used)
                _bare_seconds(narration, numbers, q, used)
            # "two pounds and a half"
            half = next((m for m in numbers[n + 1 : n + 2] if m.form == "fraction" and m.value < 1), None)
            if half is not None and not q.parts:
                between = [t.lower for t in tokens[end : half.start]]
                if between in (["and"], ["and", "a"]) and _unit_at(narration, half.end, half) is None:
                    q.value, q.end, q.numbers = number.value + half.value, half.end, (number, half)
                    used.add(id(half))
        if phrase.key == "sterling" and not q.parts:
            q.reasons.append("a pound sign may be money or a weight")
        _alternatives(narration, q)
        _below(narration, q)
        out.append(q)
    out += [
        q
        for i, q in homophones.items()
        if i not in taken_homophones and i not in {t for o in out for t in range(o.start, o.end)}
    ]
    out.sort(key=lambda q: q.start)
    out = _ranges(narration, numbers, out)
    narration.found["quantities"] = out
    return out


def _plural(word: str) -> bool:
    return word.endswith("s") and len(word) > 3


def _bare_ounces(
    narration: Narration, numbers: Sequence[Number], n: int, q: Quantity, used: set[int]
) -> None:
    """Take "two pounds six" as pounds and ounces, with a reason to look."""
    tokens = narration.tokens
    if q.word not in {"pound", "sterling"} or n + 1 >= len(numbers):
        return
    nxt = numbers[n + 1]
    if nxt.start != q.end or not 0 < nxt.value < 16 or nxt.form not in {"plain", "fraction"}:
        return
    after = tokens[nxt.end].lower if nxt.end < len(tokens) else "."
    if after not in word_list("quantities_bare_ounces") or _unit_at(narration, nxt.end, nxt):
        return
    alone = q.value
    q.value = alone + nxt.value / 16
    q.parts = (alone, nxt.value)
    q.numbers = (*q.numbers, nxt)
    q.end = nxt.end
    used.add(id(nxt))
    q.reasons.append("ounces were not said after the second number")
    q.candidates.append(
        Candidate(value=alone, unit="lb", heard=narration.heard(q.start, q.end), why="pounds alone")
    )


_CYCLES = word_list("quantities_cycles")
"""Words of what a machine does by the clock: minutes and seconds of it are said without the seconds."""


def _bare_seconds(narration: Narration, numbers: Sequence[Number], q: Quantity, used: set[int]) -> None:
    """Take "two minutes ten" and "a minute fifty" as minutes and seconds, "an hour and ten" as minutes."""
    tokens = narration.tokens
    if q.word == "hour":
        _bare_minutes(narration, numbers, q, used)
        return
    cycle = bool(_CYCLES & {t.lower for t in tokens[max(0, q.start - 6) : q.start]})
    if q.word != "minute" or q.parts or not q.value.is_integer() or q.value > (60 if cycle else 15):
        return
    nxt = next((m for m in numbers if m.start == q.end), None)
    if nxt is None or not nxt.value.is_integer() or not 5 <= nxt.value < 60 or nxt.form != "plain":
        return
    before = tokens[q.start - 1].lower if q.start else ""
    led = {"after", "within", "for", "another", "every", *(() if cycle else ("in",))}
    if before in led or _unit_at(narration, nxt.end, nxt):
        return
    q.parts = (q.value, nxt.value)
    q.value += nxt.value / 60
    q.numbers = (*q.numbers, nxt)
    q.end = nxt.end
    used.add(id(nxt))


def _bare_minutes(narration: Narration, numbers: Sequence[Number], q: Quantity, used: set[int]) -> None:
    """Take "an hour and ten" and "two hours twenty" as minutes."""
    words = narration.lowers
    if q.parts or not q.value.is_integer() or not 1 <= q.value <= 48 or q.range or q.change:
        return
    start = q.end + (words[q.end : q.end + 1] == ["and"])
    if start == q.end and words[max(0, q.start - 1) : q.start] not in (
        ["took"],
        ["takes"],
        ["for"],
        ["ran"],
        ["in"],
    ):
        return  # "after an hour | forty one"
    nxt = next((m for m in numbers if m.start == start), None)
    if nxt is None or nxt.form != "plain" or not nxt.value.is_integer() or not 5 <= nxt.value < 60:
        return
    if start == q.end and nxt.value % 5 and words[q.start - 1 : q.start] != ["in"]:
        return  # "after an hour | forty one": nobody rounds to a minute
    after = words[nxt.end] if nxt.end < len(words) else "."
    if (
        nxt.value % 5
        or after not in word_list("quantities_bare_minutes")
        or _unit_at(narration, nxt.end, nxt)
    ):
        return
    q.parts = (q.value, nxt.value)
    q.value, q.word, q.means = q.value * 60 + nxt.value, "minute", (("min", 1.0),)
    q.numbers = (*q.numbers, nxt)
    q.end = nxt.end
    used.add(id(nxt))


def _alternatives(narration: Narration, q: Quantity) -> None:
    """Note the other readings that the number itself has."""
    number = q.numbers[0]
    for other in number.alternatives:
        heard = narration.heard(q.start, q.end)
        for value in other.values:
            q.candidates.append(Candidate(value=value, unit=q.unit, heard=heard, why=other.why))
        if number.form == "two_digits" or number.written:
            q.reasons.append(other.why)
    lead = lost_hundred(narration, number)
    if lead is not None:
        why = f'"to" before {number.value:g} may be the digit two, then it is {lead:g}'
        q.candidates.append(
            Candidate(value=lead, unit=q.unit, heard=narration.heard(q.start - 1, q.end), why=why)
        )
        q.reasons.append(why)
    decimal_ounces = (
        q.word == "ounce"
        and narration.recognised
        and number.written
        and number.places == 1
        and number.value >= 1
    )
    if q.word == "ounce" and number.places == 1 and number.written and not decimal_ounces:
        # typed or not: the same digits said as pounds and ounces elsewhere make it doubtful
        decimal_ounces = _said_as_pounds(narration, number)
    if decimal_ounces:
        pounds, ounces = int(number.value), round(number.value % 1 * 10)
        if ounces:
            why = f"a recogniser writes {pounds} pounds {ounces} ounces in this way too"
            q.candidates.append(
                Candidate(
                    value=tidy(pounds + ounces / 16),
                    unit="lb",
                    heard=narration.heard(q.start, q.end),
                    why=why,
                )
            )
            q.reasons.append(why)


def _said_as_pounds(narration: Narration, number: Number) -> bool:
    """Tell whether the text says "1 pound 5 ounces" elsewhere, which makes "1.5 ounces" doubtful."""
    tokens = narration.tokens
    pounds, ounces = int(number.value), round(number.value % 1 * 10)
    for i in range(len(tokens) - 3):
        same = tokens[i].lower == str(pounds) and tokens[i + 1].lower in {"pound", "pounds", "lb", "lbs"}
        if same and tokens[i + 2].lower == str(ounces) and tokens[i + 3].lower in {"ounce", "ounces", "oz"}:
            return True
    return False


_BEFORE_TO = word_list("quantities_before_to")


def lost_hundred(narration: Narration, number: Number) -> float | None:
    """Return what "to 65" is when "to" is a misheard "two": 265; None where "to" is plain English."""
    tokens = narration.tokens
    i = number.start - 1
    if i < 1 or tokens[i].lower not in {"to", "too"} or not number.written or number.places:
        return None
    unit = tokens[number.end].lower if number.end < len(tokens) else ""
    volts = (
        unit in {"volts", "volt", "v"}
        and 5 <= number.value <= 48
        and tokens[i - 1].lower in {"got", "get", "had", "read"}
    )
    if not 5 <= number.value <= 99 or not (tokens[i - 1].lower in _BEFORE_TO or volts):
        return None
    return 200 + number.value


def _below(narration: Narration, q: Quantity) -> None:
    """Make "ten [degrees] below [zero]" negative."""
    if q.word not in {"degree", "fahrenheit", "celsius"} or q.value <= 0:
        return
    tokens = narration.tokens
    end = q.end
    said = end > q.start and tokens[end - 1].lower == "below"
    if not said and end < len(tokens) and tokens[end].lower == "below":
        end, said = end + 1, True
    if not said:
        return
    nxt = tokens[end].lower if end < len(tokens) else "."
    if nxt in {"zero", "0"}:
        q.value, q.end = -q.value, end + 1
    elif nxt in word_list("quantities_below"):
        q.value, q.end = -q.value, end


def _ranges(narration: Narration, numbers: Sequence[Number], found: list[Quantity]) -> list[Quantity]:
    """Give the first end of a range, a change or a pair the unit that was said once, after the second."""
    by_number = {id(n): q for q in found for n in q.numbers}
    index = {id(n): k for k, n in enumerate(numbers)}
    extra: list[Quantity] = []
    for q in list(found):
        second = q.numbers[0]
        k = index.get(id(second), 0)
        if not k or (q.kind != "reading" and q.kind != "size"):
            continue
        first = numbers[k - 1]
        joined = _range_of(narration, first, second)
        if joined is None or first.form in {"clock", "ordinal", "counted"}:
            continue
        if q.word in {"minute", "second", "hour"} and first.value >= 100 and first.value > 3 * second.value:
            continue  # "the second pull got to three ten and fifteen minutes later ..."
        other = by_number.get(id(first))
        if other is None:
            if first.pronoun:
                continue
            other = Quantity(
                first.start, first.end, first.value, q.word, q.kind, q.means, (first,), shared=True
            )
            _alternatives(narration, other)
            extra.append(other)
            by_number[id(first)] = other
        elif other.word != q.word:
            continue
        if joined == "range":
            other.range, q.range = "low", "high"
        elif joined == "change":
            other.change, q.change = "from", "to"
    return sorted(found + extra, key=lambda q: q.start)


def mass_of(q: Quantity) -> tuple[float, str] | None:
    """Return (value, unit) when the quantity can be a mass: lb, oz, g or kg; None otherwise."""
    meant = {name for name, _ in q.means}
    unit = next((unit for unit in ("lb", "oz", "g", "kg") if unit in meant), None)
    return (q.in_unit(unit), unit) if unit is not None else None
