"""Refrigerant out of and into a machine: `find_movements(narration) -> list[Movement]`.

Every amount that can be a mass is judged by the words nearest to it: a verb of recovering or charging
makes it a movement, unless it was planned, conditional, somebody else's or long ago; a plate, a
cylinder's weight, oil or nitrogen make it something else. Pounds and ounces are one amount, an amount
said again in another unit is the same movement, and a corrected one keeps what was retracted.

    "Recovered four pounds, no wait, five pounds eleven."   recovered 5.6875 lb, retracted 4 lb
    "Weighed in twelve ounces, plate says twelve."          charged 12 oz
    "Recovered 2.6 ohms."                                   recovered 2 lb 6 oz, with a reason
"""

from __future__ import annotations

import itertools
from bisect import bisect_left
from dataclasses import dataclass, field, replace
from functools import cache, cached_property
from typing import Any, Literal, cast

from dictate.mentions.narration import Narration
from dictate.mentions.patterns import NUMBER_WORDS, Hit, Matcher, Words, compile_pattern, words_of
from dictate.mentions.quantities import Quantity, find_quantities, mass_of
from dictate.mentions.refrigerants import RefrigerantName, find_refrigerants
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.mentions.tense import ENDING_LOST, Scopes, scopes_of
from dictate.mentions.test_stretches import find_stretches, stretch_words
from dictate.record.visit import Amount, Candidate, Movement
from dictate.units import convert
from dictate.vocabulary.load import table, word_set

Direction = Literal["recovered", "charged"]
MassUnit = Literal["lb", "oz", "g", "kg"]

_OUNCES_UNSAID = "ounces were not said after the second number"
_STUFF = word_set("other_stuff")
_SETTLED = frozenset(
    {("'s", "write"), ("'s", "say"), ("'s", "call"), ("call", "it"), ("write", "down"), ("make", "it")}
)
_SAID = (
    "i read you",
    "i read it",
    "i've told you",
    "i had told you",
    "i'd told you",
    "gave you",
    "read you",
    "change that",
    "change the",
    "scratch that",
    "strike that",
    "correct that",
    "instead of",
    "forget the",
    "i said",
    "i wrote",
    "told you",
    "i called it",
    "earlier i",
    "wrote down",
    "put down",
    "i gave you",
)
_COUPLED = {"ounces": "oz", "pounds": "lb", "grams": "g", "kilos": "kg", "oz": "oz", "lbs": "lb"}
_PARTS = {"third": 1 / 3, "fifth": 0.2, "eighth": 0.125, "tenth": 0.1, "sixteenth": 0.0625}
_MORE = frozenset(("another", "more", "additional", "plus", "extra", "second", "circuit"))
_TOLD_NEXT = {
    "charged": ("put in", "put back", "charged", "added", "weighed in", "went in"),
    "recovered": ("recovered", "took out", "got out", "came out", "pulled out", "got back"),
}
_GAS = frozenset((w,) for w in word_set("gas_words"))
_FAR = 30  # words between an amount alone in its sentence and the work that it belongs to
_REACH = 14  # words between a verb and its amount


@cache
def _data() -> dict[str, Any]:
    return table("movements")


@cache
def _words(name: str) -> frozenset[tuple[str, ...]]:
    return frozenset(tuple(p.split()) for p in _data()["words"][name])


@cache
def _numbered_names() -> frozenset[str]:
    """Return the numbers of refrigerants that no amount has by chance ("recovered 404, two pounds")."""
    digits = ("".join(c for c in e["name"] if c.isdigit()) for e in table("refrigerants")["refrigerant"])
    return frozenset(d for d in digits if len(d) > 2)


@cache
def _matcher() -> Matcher:
    lists = _data()["lists"]
    return Matcher(
        compile_pattern(kind, line, lists) for kind, lines in _data()["triggers"].items() for line in lines
    )


@dataclass(slots=True)
class _Amount:
    q: Quantity
    start: int  # word index
    end: int
    value: float
    unit: str
    kind: str  # a direction, or why it is none
    status: str | None
    trigger: int
    review: list[str] = field(default_factory=list)
    candidates: list[Candidate] = field(default_factory=list)
    retracted: list[Amount] = field(default_factory=list)
    also: list[Amount] = field(default_factory=list)
    first: int = 0


_NEAR = 1.25
"""Two amounts this near to one another are of one unit, also where it was said once."""


def unit_taken_over(value: float, other: _Amount) -> list[str]:
    """Return why a number that takes its unit from another amount needs a look: both are unlike."""
    if other.value / _NEAR <= value <= other.value * _NEAR:
        return []  # "charge on the plate is ten pounds and I weighed in ten"
    return [f"the unit was not said; {other.unit} is taken from the amount beside it"]


_AFTER_COMMA = {
    "kilos": "kg", "kilograms": "kg", "pounds": "lb", "ounces": "oz", "grams": "g", "grammes": "g",
}  # fmt: skip


class _Finder:
    def __init__(self, narration: Narration) -> None:
        self.narration = narration
        self.w: Words = words_of(narration)
        self.words = self.w.words
        self.scopes: Scopes = scopes_of(self.w)
        self.names = find_refrigerants(narration)
        # "the charge" and "a weigh tank" are nouns: a plain form that nothing governs says nothing.
        self.hits = sorted(
            (
                h
                for h in (*_matcher().hits(self.w), *self.named_objects())
                if h.verb is None or self._reports(h.verb) or self.noted(h)
            ),
            key=lambda h: (h.start, h.start - h.end),
        )
        self.amounts: list[_Amount] = []
        self.weights_found: list[Quantity] = []
        self.vacuum = False  # nothing but the vacuum before it says what the amount is
        self.staged = False  # only the stage of the work says what the amount is
        self.far = False  # the work was named more than a sentence before the amount

    def find(self) -> list[Movement]:
        """Return the movements, in order."""
        self.weights_found = self.weights()
        for q in self.weights_found:
            amount = self.amount(q)
            if amount is not None:
                self.amounts.append(amount)
        self.amounts = self.unsaid_units(self.amounts)
        kept = self.cylinder(self.all_back(self.corrected(self.amounts)))
        out: list[_Amount] = []
        for a in kept:
            if a.kind not in ("recovered", "charged") or not a.value:
                continue
            if not self.repeats(a, out):
                out.append(a)
        return [self.movement(a) for a in self.without_parts(out)]

    def without_parts(self, out: list[_Amount]) -> list[_Amount]:
        """Leave out the parts of a total said before them ("three pounds total, two liquid, one vapor")."""
        dropped: list[_Amount] = []
        for i, m in enumerate(out):
            behind = self.words[m.end : m.end + 2]
            before = self.words[max(0, m.start - 3) : m.start]
            if not any(w in ("total", "altogether", "all") for w in (*behind, *before)):
                continue
            parts = [
                a
                for a in out[i + 1 :]
                if a.kind == m.kind and self.w.sentence_of[a.start] - self.w.sentence_of[m.start] <= 1
            ]
            grams = sum(convert(a.value, a.unit, "g") for a in parts)
            if len(parts) > 1 and abs(grams - convert(m.value, m.unit, "g")) <= 0.03 * grams:
                dropped += parts
        return [a for a in out if all(a is not d for d in dropped)]

    # -- one amount ----------------------------------------------------------------------------------------

    def amount(self, q: Quantity) -> _Amount | None:
        """Judge one quantity; None when it can be no mass."""
        start, end = self.w.word_of_token(q.start), self.w.word_of_token(q.end)
        if start >= len(self.words):
            return None
        mass = mass_of(q)
        review, candidates = list(q.reasons), list(q.candidates)
        if mass is None:
            return self.misheard(q, start, end)
        value, unit = mass
        kind, status, trigger = self.kind(start, end, q)
        plated = any(a.kind == "rated" and a.unit == unit and a.value == value for a in self.amounts)
        if self.vacuum:
            if not plated:
                review.append("it was said behind the vacuum, without a word of charging")
            self.vacuum = False
        if self.staged:
            review.append("nothing beside it says which way it went: told by the work before it")
            self.staged = False
        if self.far:
            review.append("what was moved was said some sentences before")
            self.far = False
        if status == "done" and self.other_visit(start):
            status = None
        if kind in ("recovered", "charged") and _OUNCES_UNSAID in review:
            review.remove(_OUNCES_UNSAID)
        if q.word == "sterling" and kind in ("recovered", "charged") and not q.parts:
            review.append("written as money; pounds fit a refrigerant weight")
        if kind in ("recovered", "charged"):
            review += self.vague(start, end)
            if self.words[start - 1 : start] == ("to",) and self.narration.tokens[q.start].lower[:1] in (
                "p",
                ".",
            ):
                review.append('"to" before it may be the digit two')
                heard = self.narration.heard(q.start - 1, q.end)
                why = "two and the part behind the point"
                candidates.append(Candidate(value=round(2 + value, 6), unit=unit, heard=heard, why=why))
            if self.number_goes_on(q, end):
                review.append("another number follows at once")
        return _Amount(q, start, end, value, unit, kind, status, trigger, review, candidates, first=start)

    def other_visit(self, start: int) -> bool:
        """Tell whether the sentence tells of a former visit ("last time I added two pounds")."""
        s0, s1 = self.scopes.sentence(start)
        row = self.words[s0:s1]
        return any(
            row[i : i + len(p)] == p for p in _words("other_visit") for i in range(len(row))
        ) and not any(w in ("today", "now") for w in row)

    def number_goes_on(self, q: Quantity, end: int) -> bool:
        """Tell whether a number without a unit of its own stands right behind ("a kilo oh fifty")."""
        word = self.words[end] if end < len(self.words) else "."
        if word not in NUMBER_WORDS and not word[:1].isdigit():
            return False
        if self.in_name(end) or word in ("a", "and", "or"):
            return False
        return not any(o.start == q.end for o in self.weights_found)

    def vague(self, start: int, end: int) -> list[str]:
        """Return the reason to look at an amount that was not said for certain ("two pounds and change")."""
        for phrase in _words("vague"):
            if self.words[max(0, start - len(phrase)) : start] == phrase:
                return [f"said with {' '.join(phrase)!r}"]
        rest = self.words[end : end + 5]
        behind = rest[1:] if rest[:1] == (",",) else rest
        for phrase in _words("vague_behind"):
            if behind[: len(phrase)] == phrase:
                return [f"said with {' '.join(phrase)!r}"]
        return []

    def weights(self) -> list[Quantity]:
        """Return the quantities, with two ways of weighing that only make sense here joined.

        "Two kilos two hundred" is 2.2 kg, and "ounce and a half" without its article is 1.5 oz.
        """
        found = list(find_quantities(self.narration))
        numbers = {n.start: n for n in find_numbers(self.narration)}
        taken = {t for q in found for t in range(q.start, q.end)}
        tokens = self.narration.tokens
        out: list[Quantity] = []
        for q in found:
            nxt = numbers.get(q.end)
            if nxt is None and q.end < len(tokens) and tokens[q.end].lower == "and":
                nxt = numbers.get(q.end + 1)
            whole = float(q.value).is_integer() and not q.parts
            if (
                q.unit == "kg"
                and whole
                and nxt is not None
                and nxt.start not in taken
                and 50 <= nxt.value < 1000
                and nxt.value == int(nxt.value)
            ):
                q = replace(
                    q,
                    end=nxt.end,
                    value=q.value + nxt.value / 1000,
                    parts=(q.value, nxt.value),
                    numbers=(*q.numbers, nxt),
                )
            out.append(self.with_ounces(self.part_of(q, numbers), numbers, taken))
        for i in range(len(tokens) - 3):
            unit = {"ounce": "oz", "pound": "lb"}.get(tokens[i].lower)
            if unit is None or i in taken or tokens[i + 1].lower != "and" or tokens[i + 2].lower != "a":
                continue
            part = {"half": 0.5, "quarter": 0.25}.get(tokens[i + 3].lower)
            if part is not None:
                out.append(Quantity(i, i + 4, 1 + part, tokens[i].lower, "reading", ((unit, 1.0),), ()))
        for i in range(len(tokens) - 2):
            row = [t.lower for t in tokens[i : i + 3]]
            unit = _COUPLED.get(row[2] if row[1] == "of" else row[1])
            if row[0] == "couple" and unit is not None:
                end = i + 3 if row[1] == "of" else i + 2
                start = i - 1 if i and tokens[i - 1].lower == "a" else i
                vague = [f"said as {self.narration.heard(start, end)!r}"]
                out.append(Quantity(start, end, 2.0, "", "reading", ((unit, 1.0),), (), reasons=vague))
        for i in range(len(tokens) - 1):
            one = {"pound": "lb", "ounce": "oz", "kilo": "kg"}.get(tokens[i + 1].lower)
            if one is not None and tokens[i].lower == "another" and i + 1 not in taken:
                fraction = next(
                    (numbers[k] for k in (i + 3, i + 4) if k in numbers and numbers[k].form == "fraction"),
                    None,
                )
                if fraction is not None and (tokens[i + 2].lower != "and" or fraction.value >= 1):
                    fraction = None
                value = 1 + fraction.value if fraction is not None else 1.0
                end = fraction.end if fraction is not None else i + 2
                ounces = numbers.get(i + 2)
                if (
                    one == "lb"
                    and ounces is not None
                    and ounces.form == "plain"
                    and 0 < ounces.value < 16
                    and (
                        i + 2 not in taken
                        and (tokens[ounces.end].lower if ounces.end < len(tokens) else ".")
                        in word_set("behind_bare_ounces")
                    )
                ):
                    value, end = 1 + ounces.value / 16, ounces.end  # "another pound three"
                out.append(Quantity(i, end, value, tokens[i + 1].lower, "reading", ((one, 1.0),), ()))
        for number in numbers.values():
            i = number.end
            unit = _AFTER_COMMA.get(tokens[i + 1].lower) if i + 1 < len(tokens) else None
            if (
                unit is not None
                and tokens[i].lower == ","
                and number.start not in taken
                and not number.pronoun
                and number.form not in ("clock", "ordinal")
                and (i + 2 >= len(tokens) or tokens[i + 2].lower in (".", ",", "of", "in"))
            ):
                word = tokens[i + 1].lower
                out.append(
                    Quantity(number.start, i + 2, number.value, word, "reading", ((unit, 1.0),), (number,))
                )
            if (
                number.start in taken
                or i + 1 >= len(tokens)
                or tokens[i].lower not in ("more", "additional", "extra", "full")
            ):
                continue
            unit = {
                "ounces": "oz",
                "ounce": "oz",
                "pounds": "lb",
                "pound": "lb",
                "grams": "g",
                "kilos": "kg",
                "oz": "oz",
            }.get(tokens[i + 1].lower)
            if unit is not None:
                out.append(
                    Quantity(
                        number.start,
                        i + 2,
                        number.value,
                        tokens[i + 1].lower,
                        "reading",
                        ((unit, 1.0),),
                        (number,),
                    )
                )
        return self.apart_only(self.pound_and(out))

    def pound_and(self, found: list[Quantity]) -> list[Quantity]:
        """Join "the pound and | one ounce"."""
        tokens = self.narration.tokens
        out: list[Quantity] = []
        for q in found:
            i = q.start - 1 if tokens[q.start - 1].lower != "and" else q.start - 2
            if (
                i > 0
                and q.unit == "oz"
                and q.value < 16
                and tokens[i].lower == "pound"
                and tokens[i - 1].lower in ("the", "that", "just", "only", "another")
                and not any(o.start <= i < o.end and o is not q and o.value != 1 for o in found)
            ):
                q = replace(q, start=i - 1, value=1 + q.value / 16, parts=(1.0, q.value), word="pound",
                            means=(("lb", 1.0),))  # fmt: skip
            out.append(q)
        return out

    def apart_only(self, found: list[Quantity]) -> list[Quantity]:
        """Leave out what a longer amount holds: "another ounce and a half" is one."""
        out: list[Quantity] = []
        for q in sorted(found, key=lambda q: (q.start, -q.end)):
            if not out or q.start >= out[-1].end:
                out.append(q)
        return out

    def part_of(self, q: Quantity, numbers: dict[int, Number]) -> Quantity:
        """Join "point eight | of a kilo" and "a couple of | ounces": a part or a count of the unit behind."""
        tokens = self.narration.tokens
        if q.value == 1 and tokens[q.start].lower in ("a", "an") and tokens[q.start - 1].lower == "of":
            number = next((n for n in numbers.values() if n.end == q.start - 1), None)
            if number is not None and 0 < number.value < 1:
                return replace(q, start=number.start, value=number.value, numbers=(number,))
            part = _PARTS.get(tokens[q.start - 2].lower)
            if part is not None:
                return replace(q, start=q.start - 2, value=part)
        if [t.lower for t in tokens[q.start - 2 : q.start]] in (
            ["of", "the"],
            ["of", "that"],
            ["of", "those"],
        ):
            number = next((n for n in numbers.values() if n.end == q.start - 2), None)
            if number is not None and not number.pronoun and number.value <= q.value and not q.parts:
                whole = self.narration.heard(number.start, q.end)
                reasons = [*q.reasons, f"{whole!r}: the unit was said with the whole only"]
                return replace(
                    q, start=number.start, value=number.value, numbers=(number, *q.numbers), reasons=reasons
                )
        return q

    def with_ounces(self, q: Quantity, numbers: dict[int, Number], taken: set[int]) -> Quantity:
        """Join "two pounds ten came out": a number right behind pounds is ounces, whatever follows.

        Where the word behind it can be what the number counts, there is a reason to look.
        """
        number = numbers.get(q.end)
        if (
            number is None
            or q.word != "pound"
            or len(q.numbers) != 1
            or not float(q.value).is_integer()
            or number.form != "plain"
            or number.start in taken
            or number.pronoun
            or not 0 < number.value < 16
        ):
            return q
        tokens = self.narration.tokens
        behind = tokens[number.end].lower if number.end < len(tokens) else "."
        if behind in ("times", "o'clock", "am", "pm", ":", "-", "x", "%", "percent"):
            return q
        reasons = [_OUNCES_UNSAID]
        if behind not in word_set("behind_bare_ounces"):
            reasons.append(f"{number.value:g} before {behind!r} was taken for ounces")
        heard = self.narration.heard(q.start, number.end)
        alone = Candidate(value=q.value, unit="lb", heard=heard, why="pounds alone")
        return replace(
            q,
            end=number.end,
            value=q.value + number.value / 16,
            parts=(q.value, number.value),
            numbers=(*q.numbers, number),
            reasons=[*q.reasons, *reasons],
            candidates=[*q.candidates, alone],
        )

    def unsaid_units(self, amounts: list[_Amount]) -> list[_Amount]:
        """Add a bare number that takes its unit from another amount ("600 grams out, put in 650")."""
        taken = {
            t for q in (*find_quantities(self.narration), *self.weights_found) for t in range(q.start, q.end)
        }
        named = {t for n in self.names for t in range(n.start, n.end)}
        extra: list[_Amount] = []
        for number in find_numbers(self.narration):
            if self.counted_more(number, amounts, extra):
                continue
            if (
                number.start in taken
                or number.start in named
                or f"{number.value:g}" in _numbered_names()
                or number.form in ("clock", "ordinal", "counted")
                or number.pronoun
            ):
                continue
            start, end = self.w.word_of_token(number.start), self.w.word_of_token(number.end)
            s0, _ = self.scopes.sentence(start)
            left = self.left(start, s0)
            _, s1 = self.scopes.sentence(start)
            before = [a for a in amounts if s0 <= a.start < start and start - a.end <= 8]
            after = [a for a in amounts if end <= a.start < s1 and a.start - end <= 10]
            if not before and not after and left is not None:
                before = self.earlier(amounts, number.value, start, left)
            if (weight := self.weight_goes_on(number, amounts, start, end)) is not None:
                extra.append(weight)
                continue
            if (behind := self.by_words_behind(number, amounts, start, end)) is not None:
                extra.append(behind)
                continue
            if end < len(self.words) and self.words[end] not in (
                ".",
                ",",
                "and",
                "back",
                "of",
                "in",
                "total",
                "even",
                "flat",
                "exactly",
            ):
                continue
            if left is None or left.label not in ("recovered", "charged") or not (before or after):
                continue
            if before and left.start < before[-1].end:
                continue
            if start - left.end > 1:
                continue
            if self.pressure(start, end, s0, s1) or self.of_the_test(number.value, start, end, s0, s1):
                continue
            unit = (before or after)[-1 if before else 0].unit
            meant = Quantity(number.start, number.end, number.value, "", "reading", (), (number,))
            why = unit_taken_over(number.value, (before or after)[-1 if before else 0])
            extra.append(
                _Amount(
                    meant,
                    start,
                    end,
                    number.value,
                    unit,
                    left.label,
                    self.trigger_status(left),
                    left.start,
                    why,
                    [],
                    first=start,
                )
            )
        return sorted([*amounts, *extra], key=lambda a: a.start)

    def weight_goes_on(self, number: Number, amounts: list[_Amount], start: int, end: int) -> _Amount | None:
        """Take the second weight of a cylinder without its unit: "the jug went from 24 pounds to 20"."""
        last = next((a for a in reversed(amounts) if a.end <= start), None)
        if last is None or last.kind != "weight" or number.pronoun or number.form in ("clock", "ordinal"):
            return None
        gap = [w for w in self.words[last.end : start] if w != ","]
        if (
            len(gap) > 4
            or not gap
            or gap[-1] not in ("to", "at", "was", "reads", "now", "is")
            or gap[0] == "."
        ):
            return None
        if not last.value / 5 <= number.value <= last.value * 5:
            return None
        meant = Quantity(number.start, number.end, number.value, "", "reading", (), (number,))
        return _Amount(
            meant, start, end, number.value, last.unit, "weight", last.status, last.trigger, [], first=start
        )

    def by_words_behind(self, number: Number, amounts: list[_Amount], start: int, end: int) -> _Amount | None:
        """Take "the tag calls for fourteen ounces and fourteen went in": the unit from the amount before."""
        rest = self.words[end : end + 5]
        n_in, n_out = self.behind(rest, "after_in"), self.behind(rest, "after_out")
        if max(n_in, n_out) < 2 and rest[:1] not in (("recovered",), ("charged",), ("reclaimed",)):
            return None
        before = [a for a in amounts if a.end <= start and start - a.end <= 12]
        if (
            not before
            or before[-1].q.parts
            or self.w.sentence_of[start] - self.w.sentence_of[before[-1].start] > 1
        ):
            return None
        last = before[-1]
        if not last.value / 5 <= number.value <= last.value * 5:
            return None
        kind = "charged" if n_in > n_out or rest[:1] == ("charged",) else "recovered"
        meant = Quantity(number.start, number.end, number.value, "", "reading", (), (number,))
        why = unit_taken_over(number.value, last)
        status = self.status(end, end)
        return _Amount(meant, start, end, number.value, last.unit, kind, status, end, why, first=start)

    def counted_more(self, number: Number, amounts: list[_Amount], extra: list[_Amount]) -> bool:
        """Take "then four more" right behind a moved amount for one more portion of the same unit."""
        start, end = self.w.word_of_token(number.start), self.w.word_of_token(number.end)
        if self.words[end : end + 1] != ("more",) or number.pronoun:
            return False
        if self.words[end + 1 : end + 2] not in (
            (".",),
            (",",),
            ("and",),
            ("to",),
            ("till",),
            ("until",),
            (),
        ):
            return False
        last = [
            a for a in amounts if a.end <= start and start - a.end <= 4 and a.kind in ("recovered", "charged")
        ]
        if (
            not last
            or last[-1].status != "done"
            or self.w.sentence_of[start] != self.w.sentence_of[last[-1].start]
        ):
            return False
        meant = Quantity(number.start, number.end, number.value, "", "reading", (), (number,))
        why = f"the unit was not said; {last[-1].unit} is taken from the amount beside it"
        extra.append(
            _Amount(meant, start, end, number.value, last[-1].unit, last[-1].kind, "done",
                    last[-1].trigger, [why], first=start)
        )  # fmt: skip
        return True

    def earlier(self, amounts: list[_Amount], value: float, start: int, left: Hit) -> list[_Amount]:
        """Return the moved amount of the last two sentences that lends its unit to "Put back fourteen."."""
        words = self.words[left.start : left.end]
        if len(words) < 2 and words[0] not in word_set("moves_by_itself"):
            return []
        here = self.w.sentence_of[start]
        near = [
            a
            for a in amounts
            if a.start < start
            and a.kind in ("recovered", "charged")
            and a.kind != left.label
            and a.status == "done"
            and here - self.w.sentence_of[a.start] <= 2
            and a.value / 4 <= value <= a.value * 4
        ]
        return near[-1:]

    def misheard(self, q: Quantity, start: int, end: int) -> _Amount | None:
        """Take "2.6 ohms" right after "recovered" for two pounds six ounces, with a reason."""
        if q.unit != "ohm" or len(q.numbers) != 1 or not q.numbers[0].written:
            return None
        number = q.numbers[0]
        kind, status, trigger = self.kind(start, end, q)
        self.staged = self.vacuum = self.far = False
        if (
            kind not in ("recovered", "charged")
            or trigger >= start
            or start - trigger > 5
            or status != "done"
        ):
            return None
        heard = self.narration.heard(q.start, q.end)
        pounds = int(number.value)
        ounces = round((number.value - pounds) * 10**number.places)
        if number.places != 1 or not ounces:
            candidate = Candidate(value=number.value, unit="oz", heard=heard, why="ounces sound like ohms")
            return _Amount(q, start, end, number.value, "oz", kind, status, trigger,
                           [f"heard {heard}, which is no weight; {number.value:g} oz fits"], [candidate],
                               first=start)  # fmt: skip
        joined = pounds + ounces / 16
        why = f"heard {heard}, which is no weight; {pounds} lb {ounces} oz fits"
        candidates = [
            Candidate(value=joined, unit="lb", heard=heard, why=f"{pounds} pounds {ounces} ounces"),
            Candidate(value=number.value, unit="oz", heard=heard, why="ounces sound like ohms"),
        ]
        return _Amount(q, start, end, joined, "lb", kind, status, trigger, [why], candidates, first=start)

    def kind(self, start: int, end: int, q: Quantity) -> tuple[str, str | None, int]:
        """Return what the amount is, what became of it, and the word that says so."""
        s0, s1 = self.scopes.sentence(start)
        rest = self.words[end : min(s1, end + 6)]
        if self.of_else(rest):
            return "other", None, start
        if (scaled := self.by_scale(start, s0, rest)) is not None:
            return scaled, "done", s0
        if self.difference(start, end, s0, s1) or self.of_container(rest):
            return "other", None, start
        if (head := self.headed(start, s0)) is not None:
            return head, "done", s0
        left = self.left(start, s0, q)
        moved = self.behind(rest, "after_in") or self.behind(rest, "after_out")
        verb_before = left is not None and left.label in ("recovered", "charged") and start - left.end <= 1
        plate = self.behind(rest, "after_rated") and rest[:1] not in (("per",), ("by",))
        if plate and not moved:
            went = self.behind(rest[self.behind(rest, "after_rated") :], "went_in")
            if went:
                at = end + self.behind(rest, "after_rated")
                return "charged", self.status(at, end), at
        if plate and not moved and (not verb_before or rest[:1] == ("on",)):
            return "rated", None, end
        if (
            not q.parts
            and any(u == "psi" for u, _ in q.means)
            and (self.pressure(start, end, s0, s1) or self.of_the_test(q.value, start, end, s0, s1))
        ):
            return "other", None, start
        right = self.right(end, s1)
        if left is not None:
            if left.label in ("rated", "weight", "other"):
                if right is not None and left.label != "rated" and right[1] - end <= 3:
                    return right[0], self.status(right[1], end), right[1]
                return left.label, None, left.start
            apart = "," in self.words[left.end : start] or start - left.end > 4
            adjective = left.start > s0 and self.words[left.start - 1] in ("the", "this", "that", "my")
            if right is not None and right[0] != left.label and right[1] - end <= 1 and (apart or adjective):
                return right[0], self.status(right[1], end), right[1]
            return left.label, self.trigger_status(left), left.start
        if right is not None:
            return right[0], self.status(right[1], end), right[1]
        judged = self.from_before(start, s0)
        if judged[0] == "unsaid" or judged[1] is None:
            second = self.inferred(start, end, q)
            return judged if second[0] == "unsaid" else second
        words = self.words[start:s1]
        if self.vacuum and (
            self.whereto(self.words[s0:start], rest) == "charged"
            or (start == s0 and any(w in word_set("weighing_words") for w in words))
            or (start == s0 and self.gas_named(s0, s1, words))
        ):
            self.vacuum = False  # "Three pounds eight back.", "Fifty-two grams by the scale."
        return judged

    def headed(self, start: int, s0: int) -> str | None:
        """Return what a heading right before the amount says: "Out: 5 lb 2 oz.", "virgin R404A in, 2 lb"."""
        k = start
        while k > s0 and self.words[k - 1] in (":", ",", "-"):
            k -= 1
        first = max((j + 1 for j in range(s0, k) if self.words[j] in (",", ":", ";")), default=s0)
        if k == start or k - first > 6:
            return None
        named = {t for n in self.names for t in range(n.start, n.end)}
        head = tuple(
            self.words[j]
            for j in range(first, k)
            if self.w.tokens[j] not in named
            and self.words[j] not in ("virgin", "the", "then", "and", "total", "new")
        )
        if head in _words("heads_out"):
            return "recovered"
        if head in _words("heads_in"):
            return "charged"
        _, s1 = self.scopes.sentence(start)
        if head in _words("heads_in_after") and (
            any(
                a.kind == "recovered" and self.w.sentence_of[start] - self.w.sentence_of[a.start] <= 2
                for a in self.amounts
            )
            or "then" in self.words[first:k]
            or (k > 0 and any(w in word_set("weighing_words") for w in self.words[start:s1]))
        ):
            return "charged"
        return None

    def by_scale(self, start: int, s0: int, rest: tuple[str, ...]) -> str | None:
        """Read what a cylinder or its scale lost or gained: "the scale dropped by 3.4 pounds"."""
        k = start
        while k > s0 and self.words[k - 1] in ("by", "about", "exactly", "just", "a", "another", "of"):
            k -= 1
        if k > s0 + 1 and self.words[k - 2 : k] in (("went", "down"), ("came", "down"), ("went", "up")):
            verb, subject = "gained" if self.words[k - 1] == "up" else "lost", self.words[k - 3]
        elif k > s0:
            verb, subject = self.words[k - 1], self.words[k - 2] if k - 2 >= s0 else ""
        else:
            return None
        if verb in ("reads", "read", "shows", "is") and "scale" in self.words[max(s0, k - 3) : k]:
            if rest[:1] == ("less",) or rest[:1] == ("lighter",):
                return "charged"
            return "recovered" if rest[:1] in (("more",), ("heavier",)) else None
        if subject not in ("scale", "scales", "cylinder", "bottle", "tank", "drum", "jug"):
            return None
        if verb in ("dropped", "lost", "fell", "decreased"):
            return "charged"
        return "recovered" if verb in ("gained", "rose", "increased") else None

    def of_else(self, rest: tuple[str, ...]) -> bool:
        """Tell whether the amount is one of oil, ice or another stuff ("four ounces of oil")."""
        k = 1 if rest[:1] == ("of",) else 0
        return (
            any(w in _STUFF for w in rest[k : k + 2])
            and (k == 1 or rest[:1] != (",",))
            and rest[:1] not in ((",",), (".",), ("and",))
        )

    def of_container(self, rest: tuple[str, ...]) -> bool:
        """Tell whether the amount is the size of a cylinder ("a 30 pound recovery tank")."""
        vessels = word_set("weighed_vessels")
        return rest[:1] != () and (
            rest[0] in vessels
            or (len(rest) > 1 and rest[1] in vessels and rest[0] in word_set("kinds_of_vessel"))
        )

    def difference(self, start: int, end: int, s0: int, s1: int) -> bool:
        """Tell whether the amount only says how far apart two amounts are, or one step of many.

        "Two ounces less than the plate", "1.9 kg added more than came out", "four ounces at a time".
        """
        rest = self.words[end : min(s1, end + 6)]
        if self.behind(rest, "apart") or (
            rest[:1] and rest[0] in word_set("apart_alone") and not self.number_at(end + 1)
        ):
            return True
        for k in range(1, min(4, len(rest))):
            if rest[k - 1] in (",", ".", "and", "then", "but"):
                break
            if self.behind(rest[k:], "apart_later"):
                return True
        return bool(self.words[max(s0, start - 3) : start]) and any(
            self.words[max(s0, start - len(p)) : start] == p for p in _words("apart_before")
        )

    def behind(self, rest: tuple[str, ...], name: str) -> int:
        """Return how many words of a list's phrase stand at the head of `rest`."""
        best = 0
        # "of four oh four A" may stand between the amount and what is said of it.
        for phrase in _words(name):
            if rest[: len(phrase)] == phrase:
                best = max(best, len(phrase))
        return best

    def of_the_test(self, value: float, start: int, end: int, s0: int, s1: int) -> bool:
        """Tell whether many pounds are nitrogen's: "one fifty of nitrogen, no, two hundred fifty pounds".

        Said in a pressure test, or in a sentence with nitrogen; a refrigerant named with them takes them.
        """
        if value < 40:
            return False
        named = [self.w.word_of_token(n.start) for n in self.names]
        if any(start - 3 <= n <= end + 3 for n in named):
            return False
        gas = [k for k in range(s0, s1) if self.words[k] in stretch_words("gases")]
        if gas:
            moved = stretch_words("charges") & set(self.words[gas[0] : start])
            return not moved and not any(s0 <= n < s1 for n in named)
        first, last = self.w.tokens[s0], self.w.tokens[start]
        tested = any(
            x.kind == "pressure_test" and x.start <= last and x.end > first
            for x in find_stretches(self.narration)
        )
        return tested and not stretch_words("charges") & set(self.words[s0:start])

    def pressure(self, start: int, end: int, s0: int, s1: int) -> bool:
        """Tell whether pounds are a pressure here."""
        verbs = {h.start for h in self.hits if h.verb is not None and h.label in ("recovered", "charged")}
        first = next((j for j in range(start - 1, max(s0, start - 7), -1) if j in verbs), max(s0, start - 7))
        if any(
            w in ("nitrogen", "n2") for w in (*self.words[first:start], *self.words[end : min(s1, end + 4)])
        ):
            return True
        if self.words[start - 1 : start] in (("until",), ("till",), ("til",)):
            return True  # "added gas until seventy pounds"
        if self.words[start - 1 : start] in (("to",), ("at",), ("about",)) and (
            self.words[end : end + 1] in (("suction",), ("head",), ("discharge",), ("pressure",))
            or self.words[end : end + 3]
            in (("on", "the", "low"), ("on", "the", "high"), ("on", "the", "suction"))
        ):
            return True
        if (
            self.words[end : end + 1] == ("on",)
            and self.words[end + 1 : end + 2] in (("it",), ("her",), ("the",), ("that",), ("this",))
            and "plate" not in self.words[end : end + 4]
            and not any(
                w in self.words[end : end + 5]
                for w in ("plate", "label", "tag", "nameplate", "scale", "data", "sticker", "scales")
            )
        ):
            return True  # "put two hundred pounds on her"
        return self.words[end : end + 2] == ("per", "square")

    def left(self, start: int, s0: int, q: Quantity | None = None) -> Hit | None:
        """Return the nearest trigger before the amount in its sentence.

        A plate that is only the basis is passed over.
        """
        best: Hit | None = None
        for hit in self.hits:
            if hit.start >= start:
                break
            if hit.end > start and hit.label in ("recovered", "charged"):
                hit = replace(hit, end=start)  # "pulled #" runs into the amount
            if hit.start < s0 or hit.end > start:
                continue
            far = start - hit.end
            if far > _REACH and far - self.counted_up(hit.end, start) > _REACH:
                continue
            if hit.label == "rated" and (self.is_basis(hit, s0) or self.of_scale(hit)):
                continue
            if hit.label == "other" and (self.of_number(hit, start) or self.of_another(hit, q)):
                continue
            if hit.label == "rated" and self.words[hit.end : hit.end + 1] in (
                ("exchanger",), ("heat",), ("type",), ("evaporator",), ("condenser",), ("freezer",),
            ):  # fmt: skip
                continue  # a plate exchanger
            if hit.verb is not None and self.words[max(0, hit.start - 1) : hit.start] == ("pre",):
                hit = replace(hit, label="rated")  # "pre-charged with two kilos"
            if hit.verb is not None and self.words[max(0, hit.start - 1) : hit.start] in (
                ("over",),
                ("under",),
            ):
                continue  # "over charged by half a pound"
            if hit.label in ("recovered", "charged") and not self.fits(hit, start):
                continue
            if (
                best is None
                or hit.end > best.end
                or (hit.end == best.end and hit.start < best.start)
                or (hit.start == best.start and hit.end > best.end)
            ):
                best = hit
        if best is not None and best.verb is None and best.label in ("recovered", "charged"):
            # "collected what was in it, ...": the verb decides, not the words after it.
            verbs = [
                h
                for h in self.hits
                if h.verb is not None
                and h.label in ("recovered", "charged")
                and s0 <= h.start < best.start
                and best.start - h.end <= 6
                and self.fits(h, start)
            ]
            if verbs:
                return verbs[-1]
        if best is not None and best.label == "rated":
            # "weighed in the plate charge, twelve ounces": a verb right before the plate word wins.
            before = [
                h
                for h in self.hits
                if h.label in ("recovered", "charged")
                and s0 <= h.start
                and h.end <= best.start
                and best.start - h.end <= 2
                and h.verb is not None
            ]
            words = self.words[best.start : best.end]
            if before and words[0] in word_set("plate_adjectives"):
                return before[-1]
        return best

    def counted_up(self, first: int, last: int) -> int:
        """Return how many words before the amount read the scale: "one seventy, one eighty, there, ..."""
        return sum(b - a + 1 for a, b in self.counted.items() if first <= a and b < last)

    def of_scale(self, hit: Hit) -> bool:
        """Tell whether "says" is what the scale says, not a plate."""
        return self.words[hit.start] in ("says", "say") and any(
            w in ("scale", "scales") for w in self.words[max(0, hit.start - 2) : hit.start]
        )

    def of_number(self, hit: Hit, start: int) -> bool:
        """Tell whether "psi" belongs to a number before it ("recovered to zero psi, 2.3 pounds")."""
        return self.words[hit.start : hit.end] == ("psi",) and "," in self.words[hit.end : start]

    def of_another(self, hit: Hit, q: Quantity | None) -> bool:
        """Tell whether "oil" or "high side" says nothing of this amount.

        "Two pounds of oil and two pounds of gas"; "three pounds into the high side and eight ounces more".
        """
        before = self.words[max(0, hit.start - 2) : hit.start]
        if before[-1:] == ("of",) and hit.start - 1 in self.weight_ends:
            return True
        sure = q is not None and (bool(q.parts) or not any(u == "psi" for u, _ in q.means))
        return (
            sure
            and self.words[hit.start] in ("high", "low", "suction", "discharge", "head")
            and before[-1:] in (("the",), ("side",))
            and before[:1] in (("into",), ("in",), ("through",), ("on",), ("at",), ("to",), ("from",))
        )

    @cached_property
    def weight_ends(self) -> frozenset[int]:
        return frozenset(self.w.word_of_token(q.end) for q in find_quantities(self.narration) if mass_of(q))

    def fits(self, hit: Hit, start: int) -> bool:
        """Tell whether a general verb ("put", "took", "got") can govern an amount there."""
        words = self.words[hit.start : hit.end]
        between = self.words[hit.end : start]
        if (
            words == ("weighed",)
            and hit.start > 0
            and self.words[hit.start - 1] not in word_set("before_weighed")
        ):
            return False  # "the slab weighed two pounds nine"
        if words in (
            ("took",),
            ("it", "took"),
            ("she", "took"),
            ("i", "got"),
            ("we", "got"),
            ("ended", "up", "with"),
            ("put",),
            ("in", "it"),
            ("pulled",),
            ("weighed",),
            ("gave", "it"),
            ("left", "in", "it"),
        ):
            allowed = word_set("between_verb_and_amount")
            return len(between) <= 4 and all(b in allowed for b in between)
        if (
            hit.label == "charged"
            and words[0] in ("fill", "filled", "refill", "refilled")
            and any(b in ("sump", "bin", "tank", "water") for b in between)
        ):
            return False
        if (
            words[0] == "filled"
            and hit.label == "charged"
            and (
                self.words[hit.start - 1] in ("that", "which")
                or self.vessel_in(self.words[hit.end : hit.end + 4])
            )
        ):
            return False  # "..., that filled it, and another pound into the second": a bottle was filled
        if words[0] in ("used", "use", "using", "load", "loaded", "loading", "hit", "virgin"):
            return len(between) <= 2 and any(0 <= n.start - self.w.tokens[start] < 9 for n in self.names)
        if words == ("charging",) or words == ("recovery",):
            return len(between) <= 6
        return True

    def is_basis(self, hit: Hit, s0: int) -> bool:
        """Tell whether a plate word is only why the amount was chosen ("charged to the plate, ...")."""
        for phrase in _words("basis"):
            n = len(phrase)
            if hit.start - n >= s0 and self.words[hit.start - n : hit.start] == phrase:
                # "it's on the plate" needs a verb of charging before it
                before = self.words[max(s0, hit.start - 7) : hit.start]
                return any(
                    h.label in ("charged", "recovered")
                    and h.verb is not None
                    and s0 <= h.start
                    and h.end <= hit.start
                    and hit.start - h.end <= 6
                    for h in self.hits
                ) and bool(before)
        return False

    def right(self, end: int, s1: int) -> tuple[Direction, int] | None:
        """Return the direction that the words behind the amount give, and their place."""
        k = end
        # pass over the refrigerant's name and "of", "the", "was"
        steps = 0
        joined = False
        while k < s1 and steps < 7:
            rest = self.words[k:s1]
            n_in, n_out = self.behind(rest, "after_in"), self.behind(rest, "after_out")
            if joined and (n_in or n_out) and self.number_at(k + max(n_in, n_out)):
                return None  # "two pounds ten and charged three pounds four"
            into = next((n for n, w in enumerate(rest[:2]) if w in ("into", "in")), None)
            if rest[:2] == ("of", "liquid") and any(
                w in word_set("stage_out") for w in self.words[self.scopes.sentence(end)[0] : s1]
            ):
                return None  # "thirty pounds of liquid first, that's the recovery"
            if n_in and into is not None:
                told = rest[into + 1 : into + 5]
                stop = next((n for n, w in enumerate(told) if w in (",", ".", "and", "from")), len(told))
                if self.vessel_in(told[:stop]) and not set(told[:stop]) & word_set("charging_vessels"):
                    return "recovered", k  # "went into the recovery cylinder"
            # "in the tank" is out of the machine: the longer phrase wins.
            if rest[:1] == ("out",) and n_out == 1 and self.words[k - 1] == "pounds" and self.inlet_told(k):
                return None  # "thirty pounds in and eighteen pounds out" of chilled water
            if n_out and n_out >= n_in:
                return "recovered", k
            if n_in:
                if (
                    rest[:1] == ("in",)
                    and n_in == 1
                    and len(rest) > 1
                    and (rest[1] not in word_set("after_in_alone") or self.through_pump(k))
                ):
                    return None
                return "charged", k
            if k == end and self.words[k] == "," and self.behind(rest[1:], "after_weighed"):
                return ("recovered" if self.behind(rest[1:], "after_out") else "charged"), k + 1
            word = self.words[k]
            joined = joined or word == "and"
            if word in word_set("passed_over_behind") or self.in_name(k):
                k += 1
                steps += 1
                continue
            return None
        return None

    def inlet_told(self, k: int) -> bool:
        """Tell whether the sentence is of a pump or of water and names no gas."""
        s0, s1 = self.scopes.sentence(k)
        return self.pumped(s0, s1) and not self.gas_named(s0, s1, self.words[s0:s1])

    def through_pump(self, k: int) -> bool:
        """Tell whether "in" is a pump's or a water's inlet: "twenty-six pounds in, fifty-one out"."""
        s0, s1 = self.scopes.sentence(k)
        behind = self.words[k + 1 : min(s1, k + 8)]
        return self.words[k - 1] in ("pounds", "lb", "lbs", "pound") and (
            self.pumped(s0, s1) or ("out" in behind and self.number_at(k + 1) and behind[:1] != (".",)
            and not any(w in ("pounds", "ounces", "lb", "oz") for w in behind))
        )  # fmt: skip

    def number_at(self, k: int) -> bool:
        """Tell whether a number stands at word k, small words aside."""
        starts = self.number_starts
        return any(j in starts for j in range(k, min(len(self.words), k + 3)))

    @cached_property
    def counted(self) -> dict[int, int]:
        """Return the words where a number without a unit starts and ends."""
        taken = {t for q in find_quantities(self.narration) for t in range(q.start, q.end)}
        return {
            self.w.word_of_token(n.start): self.w.word_of_token(n.end)
            for n in find_numbers(self.narration)
            if n.start not in taken and not n.pronoun
        }

    def numbers_in(self, first: int, last: int) -> list[Number]:
        """Return the numbers that start at the words [first, last)."""
        places, numbers = self.placed
        return numbers[bisect_left(places, first) : bisect_left(places, last)]

    @cached_property
    def placed(self) -> tuple[list[int], list[Number]]:
        numbers = find_numbers(self.narration)
        return [self.w.word_of_token(n.start) for n in numbers], list(numbers)

    @cached_property
    def number_starts(self) -> frozenset[int]:
        return frozenset(self.w.word_of_token(n.start) for n in find_numbers(self.narration))

    def in_name(self, k: int) -> bool:
        token = self.w.tokens[k]
        return any(n.start <= token < n.end for n in self.names)

    def _reports(self, verb: int) -> bool:
        """Tell whether a verb tells of something done, and is no instruction."""
        return not self.scopes.bare(verb) or self.scopes.ending_lost(verb)

    def noted(self, hit: Hit) -> bool:
        """Tell whether "Charge 14 ounces." stands among the notes of work that opened the system."""
        i = hit.start
        if i and self.words[i - 1] not in (".", ",", ";", "then", "and"):
            return False
        if hit.verb != i or self.words[i] not in word_set("noted_verbs") or not self.number_at(hit.end):
            return False
        if self.words[i + 1 : i + 2] == (":",):
            return False  # "Charge: two pounds" is the head of an entry
        around = self.words[max(0, i - 40) : i + 40]
        near = self.words[max(0, i - 12) : i + 14]
        return any(w in word_set("opened_system") for w in around) and not any(
            w in word_set("not_yet") for w in near
        )

    def named_objects(self) -> list[Hit]:
        """Return hits for "pulled the four oh four, ...": a general verb whose object is a refrigerant."""
        out: list[Hit] = []
        for name in self.names:
            k = self.w.word_of_token(name.start)
            j = k - 1
            while (
                j > k - 4 and j > 0 and self.words[j] in ("the", "old", "all", "r", "remaining", "rest", "of")
            ):
                j -= 1
            if j >= 0 and self.words[j] in ("pulled", "took", "removed", "drew", "got"):
                end = self.w.word_of_token(name.end)
                out.append(Hit("recovered", j, end, j, "past", "named"))
        return out

    def trigger_status(self, hit: Hit) -> str | None:
        if hit.verb is not None and not self._reports(hit.verb):
            return "done"  # of the notes: with a reason, see `movement`
        if hit.verb is not None and self.scopes.kind(hit.verb) is not None:
            return self.scopes.verb(hit.verb)
        return self.scopes.noun(hit.start, hit.end)

    def status(self, k: int, end: int) -> str | None:
        """Return what became of the work whose words stand behind the amount at word k."""
        if self.scopes.kind(k) in ("past", "ing"):
            return self.scopes.verb(k)
        return self.scopes.noun(end - 1, end)

    def from_before(self, start: int, s0: int) -> tuple[str, str | None, int]:
        """Judge a lone amount by the sentence before ("Recovered it. Three pounds six.")."""
        number = self.w.sentence_of[start]
        lead = self.words[s0:start]
        k = self.taken_back_lead(s0, start)
        counted = self.counted
        while k < len(lead):
            for n in (3, 2, 1):
                if tuple(lead[k : k + n]) in _words("alone") or (n == 1 and lead[k] in (",",)):
                    k += n
                    break
            else:
                if s0 + k not in counted or counted[s0 + k] > start:
                    return self.portion(start, s0)
                k = counted[s0 + k] - s0  # "one seventy, one eighty, there, one hundred and eighty grams"
        if number == 0:
            return "unsaid", None, start
        for back in range(1, min(7, number + 1)):
            p0, p1 = self.w.sentences[number - back]
            if s0 - p0 > _FAR:
                break
            if any(
                p0 <= self.w.word_of_token(q.start) < p1 and mass_of(q) is not None
                for q in find_quantities(self.narration)
            ):
                break
            last = [
                h
                for h in self.hits
                if p0 <= h.start < p1
                and (h.verb is not None or self.words[h.start : h.start + 2] == ("recovery", "machine"))
                and h.label in ("recovered", "charged")
                and self.words[h.start : h.end] not in (("took",), ("put",), ("i", "got"))
            ]
            if last:
                self.far = back > 1
                return last[-1].label, self.trigger_status(last[-1]), last[-1].start
        return self.portion(start, s0)

    # -- what the words around it only let one think ---------------------------------------------------------

    def inferred(self, start: int, end: int, q: Quantity) -> tuple[str, str | None, int]:
        """Judge an amount that no verb of recovering or charging governs, by everything else around it.

        Where it went ("into the grey jug", "off the virgin bottle", "five pounds liquid") tells the
        direction; without that the stage of the work does, with a reason to look: behind the vacuum gas
        only goes in, behind the start of a recovery it only comes out.
        """
        unsaid = "unsaid", None, start
        s0, s1 = self.scopes.sentence(start)
        near = [
            (self.w.word_of_token(o.start), self.w.word_of_token(o.end))
            for o in self.weights_found
            if mass_of(o) is not None
        ]
        first = max([s0, *(b for a, b in near if s0 <= a and b <= start)])
        last = min([s1, *(a for a, _ in near if end <= a < s1)])
        before, rest = self.words[max(first, start - 12) : start], self.words[end : min(last, end + 12)]
        clause = (*before, *rest)
        sure = bool(q.parts) or not any(u == "psi" for u, _ in q.means)
        if self.scopes.noun(start, end) != "done" or not self.may_be_gas(end, before, rest):
            return unsaid
        gas = self.gas_named(first, last, clause)
        if not sure and (self.pumped(s0, s1) or (q.value > 99 and not gas)):
            return unsaid
        way = self.whereto(before, rest)
        sentence = self.words[s0:s1]
        if (
            way is None
            and "liquid" in rest[:3]
            and not any(w in word_set("stage_out") or w in ("total", "altogether") for w in sentence)
        ):
            way = "charged"  # "six pounds liquid, then I let it run"
        told_next = " ".join(self.words[s1 : s1 + 7])
        if "'s what" in told_next[:12]:
            ways = [d for d, said in _TOLD_NEXT.items() if any(p in told_next for p in said)]
            if len(ways) == 1:
                return ways[0], "done", start  # "I stopped at eleven ounces. That's what I put in."
        scaled = any(w in word_set("weighing_words") for w in clause)
        placed = gas or scaled or self.vessel_in(clause)
        if way is not None and (
            placed or (sure and (way == self.stage(start, s0) or not self.weak(before, s0)))
        ):
            return way, "done", start
        stage = self.stage(start, s0)
        if way is not None and stage is None and not gas and not sure:
            return unsaid
        if stage is None or (before and before[-1] in ("the", "of", "for", "than", "at", "to", "from", "my")):
            return unsaid
        told = any(w in word_set("stage_in") or w in word_set("stage_out") for w in before)
        if way is None and not (sure and (not before or told)) and not gas and not scaled:
            return unsaid
        if way is None:
            self.staged = not (told and scaled)  # "after the vacuum sixty-five grams by the scale"
        return (way or stage), "done", start

    def may_be_gas(self, end: int, before: tuple[str, ...], rest: tuple[str, ...]) -> bool:
        """Tell whether nothing beside the amount says that it is of another thing, or no whole amount."""
        if rest[:1] == ("of",) and not (self.in_name(end + 1) or rest[1:2] in _GAS):
            k = 2 if rest[1:2] and rest[1] in ("the", "new", "virgin", "fresh", "clean", "liquid") else 1
            if rest[k : k + 1] not in _GAS and not self.in_name(end + k):
                return False
        if rest[:1] in (("a",), ("an",), ("per",), ("each",), ("every",)):
            return False  # "twenty grams a metre"
        comma = rest.index(",") if "," in rest else len(rest)
        if any(w in word_set("plate_words") for w in (*before[-8:], *rest[:comma])):
            return False
        around = (*before[-8:], *rest[:8])
        if any(w in word_set("not_moved") for w in around) or any(w in _STUFF for w in around):
            return False
        return not any(
            h.label == "other" and end <= h.start < end + 5 and h.verb is None
            and self.words[h.start] not in ("high", "low", "suction", "discharge", "head", "liquid")
            for h in self.hits
        )  # fmt: skip

    def gas_named(self, first: int, last: int, clause: tuple[str, ...]) -> bool:
        """Tell whether the clause names a refrigerant."""
        low, high = self.w.tokens[first], self.w.tokens[last - 1] + 1
        return any(low <= n.start < high for n in self.names) or any(
            w in word_set("gas_words") for w in clause
        )

    def weak(self, before: tuple[str, ...], s0: int) -> bool:
        """Tell whether only a word that is said of everything leads to it.

        ("ten minutes of ice came to ...").
        """
        if before == ("got",):
            return False
        low = self.w.sentences[max(0, self.w.sentence_of[s0] - 2)][0]
        if any(h.label == "recovered" and low <= h.start < s0 for h in self.hits):
            return False
        return any(w in ("got", "came", "pulled", "gave", "fed", "threw", "in") for w in before[-6:])

    def vessel_in(self, clause: tuple[str, ...]) -> bool:
        return any(w in word_set("weighed_vessels") for w in clause)

    def pumped(self, s0: int, s1: int) -> bool:
        """Tell whether the sentence is of a pump or of water.

        ("twenty-six pounds in, fifty out").
        """
        return any(w in word_set("pumped_words") for w in self.words[s0:s1])

    def whereto(self, before: tuple[str, ...], rest: tuple[str, ...]) -> str | None:
        """Return the direction told by the place it went to or came from, or by a word of one way only."""
        votes: list[str] = []
        for row in (before, rest):
            for i, word in enumerate(row):
                tail = row[i + 1 : i + 6]
                stop = next((n for n, w in enumerate(tail) if w in (",", ".", "and", "then")), len(tail))
                tail = tail[:stop]
                vessel = self.vessel_in(tail)
                machine = any(w in word_set("gas_places") for w in tail)
                if word in ("into", "in", "to") and vessel:
                    votes.append("charged" if set(tail) & word_set("charging_vessels") else "recovered")
                elif (word in ("off", "from") and vessel) or (word in ("into", "in", "through") and machine):
                    votes.append("charged")
                elif (word in ("off", "from") or row[i : i + 2] == ("out", "of")) and machine:
                    votes.append("recovered")
        comma = max((i + 1 for i, w in enumerate(before) if w == ","), default=0)
        near = before[comma:]
        if "got" in near and (
            near.index("got") == 0 or near[near.index("got") - 1] in ("i", "we", "and", "just")
        ):
            votes.append("recovered")
        both = ((near, "lead"), (rest, "tail"))
        for row, place in both:
            for name, way in ((f"soft_in_{place}", "charged"), (f"soft_out_{place}", "recovered")):
                if any(row[i : i + len(p)] == p for p in _words(name) for i in range(len(row))):
                    votes.append(way)
        return votes[0] if len(set(votes)) == 1 else None

    def stage(self, start: int, s0: int) -> str | None:
        """Return the direction that the stage of the work allows, by the last word of the work before."""
        number = self.w.sentence_of[start]
        low = self.w.sentences[max(0, number - 3)][0]
        for i in range(start - 1, low - 1, -1):
            word = self.words[i]
            if word in word_set("stage_in"):
                return "charged"
            if word in word_set("stage_out"):
                return "recovered"
            if word in word_set("stage_none") and i < s0:
                return None
        return None

    def taken_back_lead(self, s0: int, start: int) -> int:
        """Return the words of "0.64, no weight, I've got that backwards," that come before the amount."""
        first = next(iter(self.numbers_in(s0, s0 + 1)), None)
        if first is not None and self.taken_back(self.w.word_of_token(first.end), start):
            return start - s0
        return 0

    def portion(self, start: int, s0: int) -> tuple[str, str | None, int]:
        """Take "Then nine ounces, ..." for one more portion of what the sentences before moved."""
        lead = self.words[s0:start]
        if lead in _words("portions"):
            last = [a for a in self.amounts if a.kind in ("recovered", "charged") and a.status == "done"]
            if last and self.w.sentence_of[start] - self.w.sentence_of[last[-1].start] <= 2:
                if self.in_vacuum(start):
                    self.vacuum = True
                    return "charged", "done", start
                return last[-1].kind, "done", start
        if (not lead or lead in _words("portions")) and self.in_vacuum(start):
            self.vacuum = True
            return "charged", "done", start
        return "unsaid", None, start

    def in_vacuum(self, start: int) -> bool:
        """Tell whether the sentence before told of the vacuum, after which only a charge goes in."""
        number = self.w.sentence_of[start]
        if not number:
            return False
        p0, p1 = self.w.sentences[number - 1]
        row = self.words[p0:p1]
        return any(w in ("vacuum", "evacuated", "microns", "micron", "evac") for w in row)

    # -- several amounts -----------------------------------------------------------------------------------

    def corrected(self, amounts: list[_Amount]) -> list[_Amount]:
        """Join an amount with the one that corrects it or says it again in another unit."""
        out: list[_Amount] = []
        for a in amounts:
            if a.kind == "said":
                continue
            self.settled(a)
            self.corrected_bare(a)
            if self.called(a, out):
                continue
            if self.restates(a, out) or self.repeats_inside(a, out):
                continue
            previous = out[-1] if out else None
            if a.kind in ("recovered", "charged") and self.opens_with_cue(a.start):
                # "Actually the recovered amount was ...": the last one of this direction is meant.
                previous = next((m for m in reversed(out) if m.kind == a.kind), previous)
            if previous is not None and previous.kind in ("recovered", "charged"):
                between = self.words[previous.end : a.start]
                cue = self.cue(between)
                opened = self.opens_with_cue(a.start)
                if (
                    opened
                    and self.w.sentence_of[a.start] - self.w.sentence_of[previous.end - 1] <= 4
                    and a.kind in (previous.kind, "unsaid", "weight")
                ):
                    if not self.same(previous, a):
                        previous.retracted.append(Amount(value=previous.value, unit=previous.unit))
                    previous.value, previous.unit, previous.q, previous.end = a.value, a.unit, a.q, a.end
                    previous.review, previous.candidates = (
                        [r for r in a.review if r != _OUNCES_UNSAID],
                        a.candidates,
                    )
                    continue
                near = (
                    len(between) <= 14
                    and self.w.sentence_of[a.start] - self.w.sentence_of[previous.end - 1] <= 1
                )
                if near and self.negated(a.start) and cue != "retracts":
                    continue  # "nine grams, not nineteen"
                behind = self.words[a.end : a.end + 3]
                late = (
                    any(w in ("sorry", "correction", "rather", "mean") for w in behind) and len(between) <= 3
                )
                if near and not cue and (late or ("actually" in behind[:1] and len(between) <= 12)):
                    cue = "retracts"
                if near and cue == "retracts":
                    if self.negated(a.start):
                        continue
                    self.pounds_kept(previous, a)
                    same = self.same(previous, a)
                    if not same:
                        previous.retracted.append(Amount(value=previous.value, unit=previous.unit))
                    previous.value, previous.unit = a.value, a.unit
                    previous.q, previous.end = a.q, a.end
                    previous.review, previous.candidates = a.review, a.candidates
                    if _OUNCES_UNSAID in previous.review:
                        previous.review.remove(_OUNCES_UNSAID)
                    continue
                if (
                    near
                    and len(between) <= 8
                    and a.unit != previous.unit
                    and self.same(previous, a)
                    and a.kind in (previous.kind, "unsaid", "rated", "weight")
                ):
                    previous.also.append(Amount(value=a.value, unit=a.unit))
                    previous.end = a.end
                    continue
            out.append(a)
        return out

    def called(self, a: _Amount, out: list[_Amount]) -> bool:
        """Put the last moved amount right by "..., so call it five pounds two"."""
        if self.words[a.start - 2 : a.start] not in (("call", "it"), ("make", "it"), ("makes", "it")):
            return False
        if a.kind not in ("unsaid", "rated", "weight", "recovered", "charged") or a.status == "planned":
            return False
        moved = [m for m in out if m.kind in ("recovered", "charged") and m.status == "done"]
        if not moved or self.w.sentence_of[a.start] - self.w.sentence_of[moved[-1].end - 1] > 2:
            return False
        if self.apart(moved[-1], a) > 0.5 or (
            a.kind in ("recovered", "charged") and a.kind != moved[-1].kind and a.trigger != a.start
        ):
            return False
        if self.same(moved[-1], a):
            return True
        self.replace(moved[-1], a.value, a.unit, a)
        return True

    def pounds_kept(self, previous: _Amount, a: _Amount) -> None:
        """Correct only the ounces of "two pounds six, sorry, seven ounces", with a reason to look."""
        whole = ("total", "all", "altogether", "that", "it", "only", "just")
        around = (*self.words[previous.end : a.start], *self.words[a.end : a.end + 2])
        if any(w in whole for w in around):
            return
        if previous.unit == "lb" and previous.q.parts and a.unit == "oz" and a.value < 16:
            heard = " ".join(self.words[a.start : a.end])
            a.candidates = [
                *a.candidates,
                Candidate(value=a.value, unit="oz", heard=heard, why="ounces alone"),
            ]
            a.review = [*a.review, f"{previous.q.parts[0]:g} pounds are kept from what was said before"]
            a.value, a.unit = previous.q.parts[0] + a.value / 16, "lb"

    def taken_back(self, first: int, last: int) -> bool:
        """Tell whether the words between two amounts begin by taking the first back and tell why.

        "Five ounces, no, let me look at the scale again, five point two."
        """
        row = self.words[first:last]
        head = row[1:] if row[:1] in ((",",), (".",)) else row
        opens = any(head[: len(p)] == p for p in _words("takes_back"))
        moves = any(
            first <= h.start < last
            and h.label in ("recovered", "charged")
            and h.verb is not None
            and self.words[h.start] not in ("put", "weighed", "got", "took")
            for h in self.hits
        )
        return (
            opens
            and not moves
            and row[-1:] in ((",",), (".",), ("'s",), ("at",), ("is",), ("was",), ("it",), ("says",))
        )

    def corrected_bare(self, a: _Amount) -> None:
        """Take the bare number of "eight ounces. No, nine." for the amount; the first is retracted."""
        if a.kind not in ("recovered", "charged"):
            return
        for number in self.numbers_in(a.end, a.end + 20):
            k = self.w.word_of_token(number.start)
            if (
                not a.end <= k < a.end + 20
                or number.form in ("clock", "ordinal", "counted")
                or number.pronoun
            ):
                continue
            if any(
                0 <= self.w.word_of_token(q.start) - k <= 4 and mass_of(q) is not None
                for q in self.weights_found
            ):
                return  # "fifty-six, no, eight, fifty-eight grams": the whole follows
            gap = [w for w in self.words[a.end : k] if w not in (",", ".", ";", "-")]
            if gap[1:] == ["well"]:
                del gap[0]  # "Got nine ounces out, well, ..."
            elif gap[-1:] == ["well"] and self.words[k - 2 : k] == ("well", ",") and len(gap) <= 6:
                gap = ["well"]
            lead = [
                w
                for w in gap
                if w not in ("it", "'s", "was", "that", "is", "make", "to", "be", "should", "say")
            ]
            told = self.taken_back(a.end, k) and tuple(gap) not in _words("corrections")
            cue = (
                told
                or tuple(gap) in _words("corrections")
                or (lead != ["not"] and tuple(lead) in _words("corrections"))
            )
            well = (
                [w for w in gap if w != "no"] == ["well"]
                and a.value * 0.75 <= number.value <= a.value * 1.25
                and not a.q.parts
            )  # "nine ounces out, well, nine and a quarter on the second look"
            cue = cue or well
            told = told or well
            end = self.w.word_of_token(number.end)
            behind = self.words[end] if end < len(self.words) else "."
            taken = any(q.start <= number.start < q.end for q in self.weights_found)
            if (
                tuple(gap) in ((), ("not",))
                or not cue
                or taken
                or behind
                not in (".", ",", "actually", "instead", "sorry", "then", "and", "it", "in", "by", "on")
            ):
                return
            if not a.value / 10 <= number.value <= a.value * 10 and not a.q.parts:
                return
            a.retracted.append(Amount(value=a.value, unit=a.unit))
            if a.q.parts and a.unit == "lb" and number.value < 16:
                heard = " ".join(self.words[k:end])
                a.candidates = [Candidate(value=number.value, unit="lb", heard=heard, why="pounds")]
                a.review = ["the unit was not said with the correction; it was taken for the ounces"]
                a.value = a.q.parts[0] + number.value / 16
            else:
                a.value = number.value
                more = "then" in self.words[end : end + 3]
                if more or not a.value / 2 <= a.retracted[-1].value <= a.value * 2:
                    a.review.append(f"the unit was not said with the correction; {a.unit} is taken over")
            a.end = end
            return

    def settled(self, a: _Amount) -> None:
        """Take the number that the speaker settles on ("eight ounces, ... let's write eight and a half")."""
        if a.kind not in ("recovered", "charged"):
            return
        _, s1 = self.scopes.sentence(a.start)
        for number in self.numbers_in(a.end, min(s1, a.end + 26)):
            k = self.w.word_of_token(number.start)
            if (
                not a.end <= k < min(s1, a.end + 26)
                or number.pronoun
                or number.form in ("clock", "ordinal", "counted")
            ):
                continue
            cue = self.words[k - 2 : k]
            if cue not in _SETTLED:
                continue
            if any(a.end < b.start <= k < b.end for b in self.amounts) or number.value == a.value:
                continue
            a.retracted.append(Amount(value=a.value, unit=a.unit))
            a.value, a.end = number.value, self.w.word_of_token(number.end)
            if a.q.parts:
                a.review.append(f"the unit was not said with the last number; {a.unit} is taken over")

    def repeats_inside(self, a: _Amount, out: list[_Amount]) -> bool:
        """Tell whether "put back eight ounces, the six ounces and a little" only breaks an amount down."""
        if self.words[a.start - 1 : a.start] != ("the",) or not out or a.kind not in ("recovered", "charged"):
            return False
        same_sentence = self.w.sentence_of[out[-1].start] == self.w.sentence_of[a.start]
        return (
            same_sentence
            and out[-1].kind == a.kind
            and any(m.kind != a.kind and self.same(m, a) for m in out)
        )

    def said_bare(self, a: _Amount, out: list[_Amount], s0: int) -> bool:
        """Correct the amount named by its number: "that five even I gave you, it shows five pounds six"."""
        row = self.words[s0 : a.start]
        ways = [
            w
            for w, said in (("recovered", ("out", "recovered")), ("charged", ("in", "charged")))
            if any(x in row for x in said)
        ]
        moved = [m for m in out if m.kind in ("recovered", "charged") and (len(ways) != 1 or m.kind in ways)]
        for number in self.numbers_in(s0, a.start):
            k = self.w.word_of_token(number.start)
            if not s0 <= k < a.start or any(b.start <= k < b.end for b in self.amounts):
                continue
            exact = [m for m in moved if m.value == number.value]
            meant = exact or [m for m in moved if m.q.parts[:1] == (number.value,)]
            if meant:
                self.replace(meant[-1], a.value, a.unit, a)
                if len(exact) != 1 or not number.value / _NEAR <= a.value <= number.value * _NEAR:
                    why = "corrected in a later sentence that names it by its number only"
                    meant[-1].review.append(why)
                return True
        return False

    def said_by_name(self, a: _Amount, out: list[_Amount], s0: int) -> bool:
        """Correct what is named without its number: "the recovered weight I gave you is wrong, it was 3"."""
        row = self.words[s0 : a.start]
        if self.numbers_in(s0, a.start) or not {"wrong", "should", "off", "mistake"} & set(row):
            return False
        for kind, said in (
            ("recovered", ("out", "recovered", "recovery")),
            ("charged", ("in", "charged", "charge")),
        ):
            if any(w in row for w in said):
                meant = next((m for m in reversed(out) if m.kind == kind and m.end <= s0), None)
                if meant is not None and self.apart(meant, a) < 0.8:
                    self.replace(meant, a.value, a.unit, a)
                    return True
        return False

    def restates(self, a: _Amount, out: list[_Amount]) -> bool:
        """Put an earlier amount right where "I said nine ounces before, it was eight" stands."""
        s0, s1 = self.scopes.sentence(a.start)
        said = " ".join(self.words[s0 : a.start])
        if not any(c in said for c in _SAID) and self.words[a.start - 1 : a.start] != ("not",):
            return self.denies(a, out)
        if self.said_bare(a, out, s0):
            return True
        if self.said_by_name(a, out, s0):
            return True
        moved = [m for m in out if m.kind in ("recovered", "charged")]
        meant = min(moved, key=lambda m: self.apart(m, a), default=None)
        if meant is not None and self.apart(meant, a) > 0.05:
            wrong = any(w in ("wrong", "mistake", "error") for w in self.words[a.end : min(s1, a.end + 9)])
            wrote = any(
                w in ("wrote", "noted", "put", "had", "said") for w in self.words[a.start - 3 : a.start]
            )
            if wrong and wrote and any(m.end <= a.start and m.trigger <= m.start for m in out[-1:]):
                return True  # "recovered three ten, well, I wrote three one and that was wrong"
            return self.said_wrong(a, s1)
        if meant is None:
            return self.said_wrong(a, s1)
        for b in self.amounts:
            if a.end <= b.start < s1:
                self.replace(meant, b.value, b.unit, b)
                b.kind = "said"
                return True
        for number in find_numbers(self.narration):
            start = self.w.word_of_token(number.start)
            if (
                a.end <= start < min(s1, a.end + 10)
                and number.form not in ("clock", "ordinal")
                and not number.pronoun
            ):
                self.replace(meant, number.value, a.unit, a)
                if a.q.parts:
                    meant.review.append(f"the unit was not said with the correction; {a.unit} is taken over")
                return True
        return False

    def said_wrong(self, a: _Amount, s1: int) -> bool:
        """Take the second amount of "I said two pounds recovered, should have been three", with a reason."""
        if a.kind not in ("recovered", "charged"):
            return False
        b = next((b for b in self.amounts if a.end <= b.start < s1 and b.start - a.end <= 8), None)
        if b is None or not any(w in ("should", "was", "meant", "is") for w in self.words[a.end : b.start]):
            return False
        a.retracted.append(Amount(value=a.value, unit=a.unit))
        a.value, a.unit, a.end, a.q = b.value, b.unit, b.end, b.q
        a.review.append("corrected in the same breath, but nothing like the first amount was said before")
        b.kind = "said"
        return False

    def denies(self, a: _Amount, out: list[_Amount]) -> bool:
        """Correct an earlier amount by "it was ten ounces, not nine"."""
        rest = self.words[a.end : a.end + 5]
        k = next(
            (i for i, w in enumerate(rest[:4]) if w == "not" or rest[i : i + 2] == ("instead", "of")), None
        )
        if k is None or any(w not in (",", "i", "recovered", "charged", "in", "out") for w in rest[:k]):
            return False
        at = a.end + k + (1 if rest[k] == "not" else 2)
        number = next((n for n in find_numbers(self.narration) if self.w.word_of_token(n.start) == at), None)
        if number is None:
            return False
        for m in reversed(out):
            if m.kind in ("recovered", "charged") and m.unit == a.unit and number.value == m.value:
                if a.kind in ("recovered", "charged") and a.kind != m.kind:
                    continue
                self.replace(m, a.value, a.unit, a)
                return True
        return False

    def apart(self, a: _Amount, b: _Amount) -> float:
        """Return how far two amounts are apart, as a part of the larger."""
        first, second = convert(a.value, a.unit, "g"), convert(b.value, b.unit, "g")
        return abs(first - second) / max(first, second, 1e-9)

    def replace(self, m: _Amount, value: float, unit: str, by: _Amount) -> None:
        """Set a corrected value, keeping what was retracted."""
        m.retracted.append(Amount(value=m.value, unit=m.unit))
        m.value, m.unit, m.end = value, unit, by.end
        m.review = [r for r in by.review if r != _OUNCES_UNSAID]
        m.candidates = by.candidates

    def opens_with_cue(self, start: int) -> bool:
        """Tell whether the sentence of the amount, or the short one before it, begins with a correction."""
        number = self.w.sentence_of[start]
        for n in (number, number - 1):
            if n < 0:
                continue
            s0, _ = self.w.sentences[n]
            head = [w for w in self.words[s0 : s0 + 7] if w != ","]
            if head[:1] == ["no"] and len(head) > 1:
                head = head[1:]
            if any(w in _MORE for w in self.words[s0:start]):
                continue
            for size in (4, 3, 2):
                if tuple(head[:size]) in _words("corrections"):
                    return True
            if n == number and tuple(head[:1]) in _words("corrections_alone"):
                return True
        return False

    def cue(self, between: tuple[str, ...]) -> str | None:
        """Tell whether the words between two amounts retract the first."""
        if any(w in ("plus", "another", "more") for w in between):
            return None
        for i in range(len(between)):
            for n in (4, 3, 2, 1):
                phrase = between[i : i + n]
                if phrase == ("weight",) and between[max(0, i - 1) : i] not in ((",",), ("no",), ()):
                    continue  # "recovery weight 400 grams, charge weight 420"
                if len(phrase) == n and phrase in _words("corrections"):
                    if (
                        phrase == ("no",)
                        and i + 1 < len(between)
                        and between[i + 1] in ("leaks", "leak", "more", "problem", "issues")
                    ):
                        continue
                    if (
                        phrase
                        in (
                            ("that", "was"),
                            ("weight",),
                            ("not",),
                            ("actually",),
                            ("i", "said"),
                            ("make", "it"),
                        )
                        and phrase != ("not",)
                        and len(between) > 6
                    ):
                        continue
                    if phrase == ("not",):
                        continue
                    if phrase == ("that", "was") and "no" not in between:
                        continue
                    return "retracts"
        return None

    def negated(self, start: int) -> bool:
        return start > 0 and self.words[start - 1] == "not"

    def same(self, a: _Amount, b: _Amount) -> bool:
        """Tell whether two amounts are the same weight, within what rounding between units gives."""
        if a.unit == b.unit:
            return abs(a.value - b.value) < 1e-6
        first = convert(a.value, a.unit, "g")
        second = convert(b.value, b.unit, "g")
        return abs(first - second) <= max(0.03 * max(first, second), 0.0)

    def then(self, a: _Amount) -> bool:
        """Tell whether the amount is one more of a row ("four ounces, then four ounces")."""
        return any(w in ("then", "last") for w in self.words[max(0, a.start - 2) : a.start])

    def elsewhere(self, m: _Amount, a: _Amount) -> bool:
        """Tell whether the same amount went into another machine ("Unit two, charged two pounds")."""
        return bool(self.places(a)) and bool(self.places(m)) and not self.places(a) & self.places(m)

    def places(self, a: _Amount) -> set[tuple[str, ...]]:
        """Return the numbered or sided machines named in the amount's sentence before it, or just behind."""
        s0, s1 = self.scopes.sentence(a.start)
        inside = [b.end for b in self.amounts if s0 < b.end <= a.start]
        first, last = max([s0, *inside]), min(s1, a.end + 5)
        row = self.words[first:last]
        found: set[tuple[str, ...]] = set()
        for i, word in enumerate(row):
            if word in word_set("numbered_places") and i + 1 < len(row) and row[i + 1] not in (",", "."):
                found.add((word, row[i + 1]))
            elif word in ("left", "right", "first", "second", "third", "other", "upper", "lower"):
                found.add((word,))
        return found

    def repeats(self, a: _Amount, out: list[_Amount]) -> bool:
        """Tell whether an amount only says again what an earlier one said.

        A different unit is kept with it.
        """
        s0, _ = self.scopes.sentence(a.start)
        before = self.words[max(s0, a.start - 8) : a.start]
        if a.status != "done":
            return True
        for m in out:
            if (
                m.kind == a.kind
                and self.same(m, a)
                and not any(w in (*before, self.words[a.start]) for w in (*_MORE, "again"))
                and not self.then(a)
                and not self.elsewhere(m, a)
            ):
                if m.unit != a.unit:
                    m.also.append(Amount(value=a.value, unit=a.unit))
                return True
        # a part of the total that was said before ("three pounds total, two liquid and one vapor")
        # a total of what was said before
        total = [m for m in out if m.kind == a.kind]
        if len(total) > 1 and any(
            w in (*before, *self.words[a.end : a.end + 3]) for w in ("total", "all", "altogether", "together")
        ):
            grams = sum(convert(m.value, m.unit, "g") for m in total)
            if abs(grams - convert(a.value, a.unit, "g")) <= 0.03 * grams:
                return True
        return False

    def cylinder(self, amounts: list[_Amount]) -> list[_Amount]:
        """Work an amount out of a cylinder's weights before and after, where no amount was said."""
        out = list(amounts)
        weights = [a for a in amounts if a.kind == "weight"]
        for a, b in itertools.pairwise(weights):
            if (
                self.w.sentence_of[b.start] - self.w.sentence_of[a.start] > 1
                or a.unit != b.unit
                or a.value == b.value
            ):
                continue
            if not self.on_scale(a):
                continue
            direction = self.by_cylinder(a, b) or self.work_around(a.start)
            if direction is None:
                continue
            if any(m.kind == direction and m.status == "done" for m in amounts):
                continue
            difference = round(abs(b.value - a.value), 6)
            both = f"{a.value:g} and {b.value:g} {a.unit}"
            why = f"worked out from the cylinder's weights, {both}; the amount itself was not said"
            told = self.by_cylinder(a, b) == direction and (b.value > a.value) == (direction == "recovered")
            # Two weights of a cylinder, each with its unit, and which way it went say the amount as well.
            reasons = [] if told and a.q.unit and b.q.unit else [why]
            if (b.value > a.value) != (direction == "recovered"):
                reasons.append(f"the weight {'rose' if b.value > a.value else 'fell'}, which does not fit")
            out.append(
                _Amount(
                    b.q,
                    a.start,
                    b.end,
                    difference,
                    a.unit,
                    direction,
                    "done",
                    a.start,
                    reasons,
                    [],
                    first=a.start,
                )
            )
        return sorted(out, key=lambda x: x.start)

    def on_scale(self, a: _Amount) -> bool:
        """Tell whether a cylinder or a scale was named before "went from ... to ..."."""
        if self.words[a.trigger : a.trigger + 2] != ("went", "from"):
            return True
        first = self.w.sentences[max(0, self.w.sentence_of[a.start] - 1)][0]
        named = self.words[first : a.start]
        return any(w in word_set("weighed_vessels") or w in ("scale", "scales") for w in named)

    def by_cylinder(self, a: _Amount, b: _Amount) -> Direction | None:
        """Return the direction that the cylinder's name or the words around two weights give."""
        s0 = self.w.sentences[self.w.sentence_of[a.start]][0]
        s1 = self.w.sentences[self.w.sentence_of[b.end - 1]][1]
        row = self.words[s0:s1]
        ways: list[Direction] = []
        for name, way in (("in_noun", "charged"), ("out_noun", "recovered")):
            if any(row[i : i + len(p)] == p for p in _words(name) for i in range(len(row))):
                ways.append(cast(Direction, way))
        return ways[0] if len(ways) == 1 else None

    def all_back(self, amounts: list[_Amount]) -> list[_Amount]:
        """Work out "put it all back plus six ounces": what was recovered, and what was added to it."""
        out: list[_Amount] = []
        for a in amounts:
            if a.kind == "charged" and a.status == "done":
                s0, _ = self.scopes.sentence(a.start)
                before = self.words[s0 : a.start]
                lead = next((n for n in (1, 2, 3) if before[-n:][:1] in (("plus",), ("and",), ("with",))), 0)
                told = before[: len(before) - lead] if lead else ()
                whole = any(told[-len(p) :] == p for p in _words("all_of_it"))
                taken_out = [m for m in out if m.kind == "recovered" and m.status == "done"]
                if whole and len(taken_out) == 1:
                    first = taken_out[0]
                    more = convert(a.value, a.unit, first.unit)
                    both = f"{first.value:g} {first.unit} and {a.value:g} {a.unit}"
                    a.review.append(f"worked out as what was recovered and what was added, {both}")
                    heard = " ".join(self.words[a.start : a.end])
                    a.candidates.append(Candidate(value=a.value, unit=a.unit, heard=heard, why="added alone"))
                    a.value, a.unit = round(first.value + more, 6), first.unit
            out.append(a)
        return out

    def work_around(self, i: int) -> Direction | None:
        """Return the direction of the work named nearest to word i, within two sentences."""
        number = self.w.sentence_of[i]
        first = self.w.sentences[max(0, number - 2)][0]
        last = self.w.sentences[min(len(self.w.sentences) - 1, number + 1)][1]
        best: Hit | None = None
        for h in self.hits:
            if (
                h.label in ("recovered", "charged")
                and h.verb is not None
                and first <= h.start < last
                and self.trigger_status(h) == "done"
                and self.words[h.start] not in ("put", "took", "weighed", "weigh", "got")
            ) and (best is None or abs(h.start - i) < abs(best.start - i)):
                best = h
        return cast(Direction, best.label) if best is not None else None

    # -- the record's form ---------------------------------------------------------------------------------

    def movement(self, a: _Amount) -> Movement:
        """Return the record's movement."""
        start, end = self.w.span(min(a.first, a.start), a.end)
        name = self.refrigerant(a)
        s, e = start, end
        if a.trigger < a.start and a.start - a.trigger <= _REACH:
            s = self.w.tokens[a.trigger]
        lost = [ENDING_LOST] if self.scopes.ending_lost(a.trigger) else []
        leading = [h for h in self.hits if h.start == a.trigger and h.label == a.kind]
        if leading and all(h.verb is not None and not self._reports(h.verb) for h in leading):
            lost = [f"{self.words[a.trigger]!r} was not said as done: it may be an instruction"]
        return Movement(
            direction=cast(Direction, a.kind),
            refrigerant=name.name if name else None,
            value=float(f"{a.value:.9g}"),
            unit=cast(MassUnit, a.unit),
            at=self.narration.at(s, e),
            heard=self.narration.heard(s, e),
            review=list(dict.fromkeys([*a.review, *lost, *(name.reasons if name else [])])),
            candidates=a.candidates,
            retracted=a.retracted,
            also_said=a.also,
        )

    def refrigerant(self, a: _Amount) -> RefrigerantName | None:
        """Return the refrigerant named with the amount: behind it, or between the verb and it."""
        first = self.w.tokens[a.trigger] if a.trigger < a.start else self.w.tokens[a.start]
        _, s1 = self.w.sentences[self.w.sentence_of[a.end - 1]]
        limit = self.w.tokens[min(s1, a.end + 9) - 1] + 1
        after = [n for n in self.names if n.start >= self.w.tokens[a.end - 1] and n.start < limit]
        inside = [n for n in self.names if first <= n.start < self.w.tokens[a.start]]
        if not inside and a.trigger < a.start:
            # "took the old 22 out": the verb itself may have the name in it
            verbs = [h for h in self.hits if h.label == a.kind and h.end <= a.start and a.start - h.end <= 2]
            inside = [
                n
                for h in verbs
                for n in self.names
                if self.w.tokens[h.start] <= n.start < self.w.tokens[a.start]
            ]
        # nothing but small words between the amount and the name behind it, or no other amount
        for n in after:
            place = self.w.word_of_token(n.start)
            between = self.words[a.end : place]

            if inside and any(w in (",", "and", "then", ";") for w in between):
                break
            if any(
                a.end <= h.start < place
                and h.label in ("recovered", "charged")
                and h.verb is not None
                and self.words[h.start] not in ("recovered", "charged", "added")
                for h in self.hits
            ):
                break  # "six pounds, and put 407C in"
            alone = not any(a.end <= x.start < place for x in self.amounts)
            if alone and not any(w in ("instead", "not", "label", "plate") for w in between):
                return n
        if inside:
            return inside[-1]
        # "the 404 came out at eleven pounds"
        lead = min(a.trigger, a.start)
        s0, _ = self.scopes.sentence(lead)
        low, high = self.w.tokens[s0], self.w.tokens[lead] if lead < len(self.words) else 10**9
        before = [n for n in self.names if low <= n.start < high]
        if before and lead - self.w.word_of_token(before[-1].end) <= 2:
            gap = self.words[self.w.word_of_token(before[-1].end) : lead]
            if not any(w in (",", "and", ".") for w in gap) and not any(
                s0 <= x.start < lead for x in self.amounts if x is not a
            ):
                return before[-1]
        return None


def find_movements(narration: Narration) -> list[Movement]:
    """Return the refrigerant movements of a narration in the order in which they were said."""
    return _Finder(narration).find()
