"""Numbers with a unit said: `find_quantities(narration) -> list[Quantity]`, in order, without overlaps.

A unit that can mean two things keeps both meanings ("pounds" of refrigerant or of pressure, "inches" of pipe
or of vacuum, "K" of ohms or of kelvins): the finders decide from what was measured. Pounds and ounces, hours
and minutes, and the like said together are one quantity in the larger unit. Money, sizes and calendar times
come out as well, under their `kind`, so that nobody takes them for a reading.

    "three pounds eight ounces"  -> value 3.5, word "pound",  means (("lb", 1), ("psi", 1)), parts (3, 8)
    "between six and seven amps" -> 6 A (range "low") and 7 A (range "high")
    "12 gauge"                   -> kind "size"
    "2 pounds for ounces"        -> 2.25, with a reason: "for" may be the digit 4

The way through them:

    quantity         the quantity itself, and its mass
    unit_behind      which unit stands behind a number, and which word only looks like one
    articles         amounts said with "a": "a pound and a half", "half a pound"
    unit_inside      a unit in the middle of its number: "nine bar point four"
    two_units        a larger and a smaller unit in one amount, where the second may be left unsaid
    misheard         digits that a recogniser wrote as words, and what else a number may be
    ranges           two numbers with one unit: the ends of a range, of a change
    side_of_zero     "below" that is said of zero, and "below" that compares
"""

from __future__ import annotations

from dictate.mentions.narration import Narration
from dictate.mentions.phrases import Phrase
from dictate.mentions.quantities.articles import article_quantities
from dictate.mentions.quantities.misheard import (
    half_written,
    half_written_why,
    homophone_quantities,
    lost_hundred,
    note_alternatives,
)
from dictate.mentions.quantities.quantity import Quantity, mass_of, tidy
from dictate.mentions.quantities.ranges import with_ranges
from dictate.mentions.quantities.side_of_zero import below_zero
from dictate.mentions.quantities.two_units import (
    bare_grams,
    bare_ounces,
    bare_seconds,
    smaller_unit,
    without_article,
)
from dictate.mentions.quantities.unit_behind import FILLERS, after_fillers, inches_unsaid, unit_behind
from dictate.mentions.quantities.unit_inside import join_decimals
from dictate.mentions.refrigerants.named import find_refrigerants
from dictate.mentions.spoken_numbers import find_numbers
from dictate.mentions.unit_words import unit_phrases, unit_words
from dictate.record.visit import Candidate

__all__ = [
    "FILLERS",
    "Quantity",
    "find_quantities",
    "half_written",
    "half_written_why",
    "lost_hundred",
    "mass_of",
    "tidy",
]


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
    articles = article_quantities(narration, numbers)
    used: set[int] = {id(n) for q in articles for n in q.numbers}
    for q in articles:
        bare_seconds(narration, numbers, q, used)
        if q.value == 1 and not q.parts:  # "a pound twelve", "a kilo two hundred"
            before = next((k - 1 for k, n in enumerate(numbers) if n.start >= q.end), len(numbers))
            bare_ounces(narration, numbers, before, q, used)
            bare_grams(narration, numbers, before, q, used)
    out += articles
    for q in without_article(narration, numbers):
        used.update(id(n) for n in q.numbers)
        out.append(q)
    homophones = {q.start: q for q in homophone_quantities(narration)}
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
            phrase = unit_behind(narration, number.end, number)
        if phrase is None:
            phrase = inches_unsaid(narration, number)
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
        small = smaller_unit(narration, numbers, n, after)
        if small is not None and unit.joins is not None:
            second, second_unit, _ = small
            q.value = number.value + second.value / unit.joins[1]
            q.parts = (number.value, second.value)
            q.numbers = (number, second)
            q.end = second_unit.end
            used.add(id(second))
        elif unit.joins is not None:
            i = after_fillers(narration, end)
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
                bare_ounces(narration, numbers, n, q, used)
                bare_seconds(narration, numbers, q, used)
                bare_grams(narration, numbers, n, q, used)
        if not q.parts:
            join_decimals(narration, numbers, n, q, used)
        if phrase.key == "sterling" and not q.parts:
            q.reasons.append("a pound sign may be money or a weight")
        note_alternatives(narration, q)
        _below(narration, q)
        out.append(q)
    out += [
        q
        for i, q in homophones.items()
        if i not in taken_homophones and i not in {t for o in out for t in range(o.start, o.end)}
    ]
    out.sort(key=lambda q: q.start)
    out = with_ranges(narration, numbers, out)
    narration.found["quantities"] = out
    return out


def _plural(word: str) -> bool:
    return word.endswith("s") and len(word) > 3


def _below(narration: Narration, q: Quantity) -> None:
    """Make "ten [degrees] below [zero]" negative."""
    if q.word not in {"degree", "fahrenheit", "celsius"} or q.value <= 0:
        return
    words = narration.lowers
    at = q.end - 1 if q.end > q.start and words[q.end - 1] == "below" else q.end
    end = below_zero(words, at)
    if end is not None:
        q.value, q.end = -q.value, end
