"""Taking readings: each candidate value with what it is a value of, how it was said, and how sure that is.

    find_readings(narration) -> Found

Sentence by sentence the candidates of `values/` are tied to the labels, components and points around
them. A stretch of words between two values belongs partly to the one before ("22 on the suction side,") and
partly to the next ("head 210"); `WhoseWords.split` decides where. A bare number is a reading only when
something says of what: a label, a component with one thing to measure, a list that goes on, or the reading
before it. Its unit is then the one that the measured thing has in the visit's unit system, and
`unit_assumed` says so. What cannot be tied to anything stays out; what can be tied in two ways comes out
with a reason in `review`.

The work is a chain of classes, one subject a module, each using those before it: `series` (lists),
`whose_words` (zones), `units_carried`, `markings`, `electric`, `said_before`, `bare_numbers`, `said_units`,
`rows_of_points`, `under_talk`, `places`, `states`, `ratings`, and `Sentence` here, which makes the readings.
`taken` holds what they pass on, `subject` what is under test.
"""

from __future__ import annotations

from itertools import pairwise
from typing import cast

from dictate.mentions.impossible import Impossible
from dictate.mentions.narration import Narration
from dictate.mentions.places.air_sides import settle_sides
from dictate.mentions.plausible import fits, reason
from dictate.mentions.quantities import FILLERS, tidy
from dictate.mentions.roles.cues import relation_of
from dictate.mentions.roles.roles import Roles
from dictate.mentions.same_again import repeat_values
from dictate.mentions.second_opinion import MEASURED, told
from dictate.mentions.second_opinion.opinion import BETWEEN
from dictate.mentions.values import Value
from dictate.mentions.weighing import BORNE_OUT, BY_WORDS
from dictate.mentions.whose.subject import Subject
from dictate.mentions.whose.taken import (
    BY_WORDS_ONLY,
    COPULAS,
    FAR_FROM_LABEL,
    LINKING,
    LOOSE,
    PLAIN,
    Found,
    Link,
    Taken,
    Zone,
)  # fmt: skip
from dictate.mentions.word_lists import word_list
from dictate.record import visit as record
from dictate.record.visit import Candidate, Reading
from dictate.units import UCUM

AGREES, SURE, NO_DOUBT, ENCODED = 0.5, 0.9, 0.97, 0.8
"""Chances of the second opinion: it bears a value out; it is enough by itself; and without a question;
and what is enough, with a question, of the text encoder.

Chosen on narrations that its weights were not trained on.
"""

_MAY_COUNT = 12
"""Up to here a whole number may count or name things, and the words around must leave no doubt."""
_COPULAS_BEHIND = (["is"], ["are"], ["was"], ["were"])


class Sentence(Impossible):
    """The values of one sentence."""

    def run(self) -> None:
        if not self.values:
            return
        self._label_units()
        values = self.values
        roles = Roles(
            self.r.narration,
            (self.first, self.last),
            [(v.start + v.opens, v.end) for v in values],
            [(s, e) for s, e in self.items] + [(v.start, v.start + 1) for v in values if v.opens],
        )
        groups = self._groups()
        self.groups = groups
        self.group_of = {id(v): group for group in groups for v in group}
        zones = self._zones(groups)
        for group, zone in zip(groups, zones, strict=True):
            previous: Taken | None = None
            begin = len(self.r.found.readings)
            self._share_units(group)
            for value in group:
                taken = self._take(value, group, zone, previous)
                if taken is None:
                    continue
                if previous is None and len(group) > 2 and value is group[1]:
                    self.r.found.readings.extend(self._first_of_legs(group[0], group[-1], taken))
                self._role(taken, roles, values.index(value))
                for one in self._spread(taken):
                    self.r.found.readings.append(one)
                dashed = previous is not None and self.words[previous.end : taken.start] in (
                    ["-"],
                    ["/"],
                    ["slash"],
                    ["to"],
                )
                if (
                    previous is not None
                    and dashed
                    and taken.reading.role == "rated"
                    and previous.reading.role == "measured"
                ):
                    previous.reading.role = "rated"
                    previous.reading.component = taken.reading.component
                previous = taken
            self._three_legs(group, self.r.found.readings[begin:])

    def _take(self, v: Value, group: list[Value], zone: Zone, previous: Taken | None) -> Taken | None:
        if v.aside:
            return None
        link = self._link(v, group, zone, previous) or self._seen(v) or self._by_the_words_around(v)
        if link is None:
            return None
        link = self._possible(v, link)
        link = self._of_the_next(v, link) or link
        if link.quantity == "temperature":
            link = self._changes_by(v, link) or link
        self._by_the_tool(v, link)
        self._place(v, group, zone, link, previous)
        first = link
        link = self._possible(v, self._likelier(v, group, zone, link, previous) or link)
        doubt = self._loose(v, zone, link)
        if doubt is not None:
            link.reasons.append(doubt)
        reading = self._reading(v, link)
        if reading is None:
            return None
        if first is not link:
            heard = self.r.narration.heard(v.start, v.end)
            why = f"it may be a {first.quantity.replace('_', ' ')}"
            other = Candidate(value=tidy(first.amount), unit=first.unit, heard=heard, why=why)
            reading.candidates.append(other)
        place = bool(self._comps(zone) or self._pts(zone, link.quantity))
        return Taken(
            reading,
            v,
            v.start,
            v.end,
            self.number,
            link.label,
            link.unit_said,
            link.explicit,
            place,
            link.how,
            link.label_at is not None,
        )

    def _of_the_next(self, v: Value, link: Link) -> Link | None:
        """Take a bare number for what the one before has: "heater 1 reads 45 ohms, heater 2 46"."""
        if v.quantity is not None or link.how != "component" or not self.r.found.readings:
            return None
        last = self.r.found.readings[-1]
        reading = last.reading
        if last.sentence != self.number or v.start - last.end > 6 or reading.quantity == link.quantity:
            return None
        if reading.role != "measured" or not reading.value or not 0.6 <= v.value / reading.value <= 1.6:
            return None
        named = {c.which: c.name for c in self.components if last.start - 8 <= c.start < v.start and c.which}
        if len(named) < 2 or set(named.values()) != {reading.component}:
            return None
        return self._assume(v, reading.quantity, None, "component")

    def _by_the_tool(self, v: Value, link: Link) -> None:
        """Take a bare number by what it was read on, where nothing names its quantity.

        A leak detector that shows nought reads gas in the air; on the leads of a battery there are volts.
        """
        if v.quantity is not None or v.state == "open" or v.clock or link.unit_said:
            return
        before = self.words[max(self.first, v.start - 9) : v.start]
        if link.quantity == "temperature" and v.value == 0 and word_list("readings_leak_tools") & set(before):
            link.quantity, link.unit, link.amount = "concentration", "ppm", v.value
            link.label, link.label_at, link.carried, link.component, link.point = None, None, None, None, None
            return
        vehicle = 8 <= v.value <= 15.5 or 22 <= v.value <= 31
        if (
            link.quantity == "current"
            and v.bare
            and link.how != "label"
            and vehicle
            and not word_list("readings_of_amps") & set(before)
        ):
            near = self.words[max(0, v.start - 45) : v.start]
            tools = word_list("labels_tools_with_batteries")
            if any(w in word_list("readings_on_battery") and a not in tools for a, w in pairwise(near)):
                link.quantity, link.unit, link.amount = "voltage", "V", v.value
                link.label, link.label_at, link.carried = None, None, None

    def _by_the_words_around(self, v: Value) -> Link | None:
        """Take a bare number that nothing ties to a thing, where the words around it leave little doubt."""
        quantity, certain = self._sounds_like(v) if v.bare and not v.clock and v.numbers else (None, False)
        if quantity is None:
            return None
        at = v.end + 2 * (self.words[v.end : v.end + 1] == ["and"])
        if self.words[at : at + 1] in _COPULAS_BEHIND:
            return None  # "two and four are dead": a number of a thing, of which something is told
        link = self._assume(v, quantity, None, "words")
        if link is not None and not certain:
            heard = self.r.narration.heard(v.start, v.end)
            link.reasons.append(f"{heard!r} is taken as a {quantity.replace('_', ' ')} {BY_WORDS_ONLY}")
        return link

    def _sounds_like(self, v: Value) -> tuple[str | None, bool]:
        """Return the quantity that the words leave little doubt of, and whether they leave none at all."""
        opinion = self._opinion(v)
        count = v.value <= _MAY_COUNT and v.value == int(v.value)
        if opinion is not None and opinion.best in BY_WORDS:
            share = opinion.of(opinion.best)
            if share >= (NO_DOUBT if count else SURE):
                return opinion.best, share >= NO_DOUBT
        read = told(self.r.narration, "class").get(v.numbers[0].start)
        if read is not None and read.share >= ENCODED:
            quantity, _, meaning = read.best.partition(BETWEEN)
            if meaning == MEASURED and quantity in BY_WORDS:
                return quantity, False
        return None, False

    def _loose(self, v: Value, zone: Zone, link: Link) -> str | None:
        """Return a reason to look when nothing close by says what a bare number is a value of."""
        opinion = self._opinion(v)
        if (opinion is not None and opinion.of(link.quantity) >= AGREES) or (link.share or 0.0) >= BORNE_OUT:
            return None
        if link.how == "carry":
            last = link.carried
            if last is None:
                return f"what {self.r.narration.heard(v.start, v.end)!r} is a value of {LOOSE}"
            before = [w for w in self.words[zone.pre[0] : v.start] if w not in FILLERS]
            if before and self.number - last.sentence == 1 and all(w in PLAIN for w in before):
                return None
            return f"what {self.r.narration.heard(v.start, v.end)!r} is a value of {LOOSE}"
        if link.how == "carry0":
            before = self.words[zone.pre[0] : v.start]
            known = {t for s, e in self.items for t in range(s, e)}
            names = [w for i, w in enumerate(before, zone.pre[0]) if i not in known]
            odd = [
                w
                for w in names
                if w.isalpha()
                and w not in PLAIN
                and w not in COPULAS
                and w not in FILLERS
                and w not in LINKING
            ]
            if len(odd) >= 2:
                return f"what {self.r.narration.heard(v.start, v.end)!r} is a value of {LOOSE}"
        if link.how in {"component", "weak label", "point"} and self._row_point(v) is None:
            unknown = self._unknown_between(v, zone)
            if unknown:
                heard = self.r.narration.heard(v.start, v.end)
                return f"{unknown!r} stands between {heard!r} {FAR_FROM_LABEL}"
        return None

    def _unknown_between(self, v: Value, zone: Zone) -> str | None:
        known = {t for s, e in self.items for t in range(s, e)}
        begin = max((e for s, e in self.items if e <= v.start and s >= zone.pre[0]), default=None)
        if begin is None:
            return None
        for i in range(begin + self._place_words(begin, v.start), v.start):
            w = self.words[i]
            if w in {"ground", "earth", "shell", "frame"} and self.words[i - 1] == "to":
                continue
            if (
                i not in known
                and w.isalpha()
                and w not in PLAIN
                and w not in COPULAS
                and w not in LINKING
                and w not in FILLERS
            ):
                return w
        return None

    def _reading(self, v: Value, link: Link) -> Reading | None:
        narration = self.r.narration
        number = v.numbers[0] if v.numbers else None
        amount: float | None = tidy(link.amount)
        reasons = list(dict.fromkeys([*v.reasons, *link.reasons]))
        candidates = [c.model_copy() for c in v.candidates]
        if v.state == "open":
            amount = None
        else:
            amount = self._settle(v, link, cast(float, amount), reasons, candidates)
            why = reason(link.quantity, link.point, amount, link.unit)
            if why is not None:
                reasons.append(why)
        relation = relation_of(narration, v.start, v.end) if v.state == "value" else "="
        if link.how == "over":
            relation = "="
        if v.range == "low":
            relation = ">="
        elif v.range == "high":
            relation = "<="
        start = v.start
        confidence = 1.0 if not reasons else 0.5
        probability = narration.probability(v.start, v.end)
        if probability is not None:
            confidence = min(confidence, probability)
        del number
        return Reading(
            quantity=cast(record.Quantity, link.quantity),
            value=amount,
            unit=cast(record.Unit, link.unit),
            ucum=UCUM.get(link.unit),
            reference=cast(
                "record.Reference | None", link.reference if link.quantity == "pressure" else None
            ),
            unit_assumed=self._assumed(v, link),
            derived=link.derived,
            relation=cast(record.Relation, relation),
            state="open" if v.state == "open" else "value",
            component=link.component,
            point=link.point,
            which=link.which,
            at=narration.at(start, v.end),
            heard=narration.heard(self._heard_from(v, link), v.end),
            confidence=confidence,
            review=reasons,
            candidates=candidates,
        )

    def _assumed(self, v: Value, link: Link) -> bool:
        """Tell whether the unit comes from around: "dead" and "nothing" name none, "no volts" does."""
        if v.state == "zero":
            return word_list("readings_zero_units").isdisjoint(self.words[v.start : v.end])
        return not link.unit_said and v.state != "open"

    def _heard_from(self, v: Value, link: Link) -> int:
        """Return where the words of a reading begin: at its label when that stands close in front."""
        if link.label_at is not None and link.label_at.end <= v.start and v.start - link.label_at.start <= 8:
            gap = self.words[link.label_at.end : v.start]
            if "," not in gap and not any(
                w.end <= v.start and w.start >= link.label_at.end for w in self.values if w is not v
            ):
                return link.label_at.start
        return v.start

    def _settle(
        self, v: Value, link: Link, amount: float, reasons: list[str], candidates: list[Candidate]
    ) -> float:
        """Choose between the readings of an ambiguous number form by what is possible here."""
        number = v.numbers[0] if v.numbers else None
        if number is None or not number.alternatives or len(v.numbers) > 1:
            return amount
        factor = amount / v.value if v.value else 1.0
        last = self._near_value(link)
        known = last.value if last is not None else None
        sure = known if last is not None and not last.review else None
        for other in number.alternatives:
            if len(other.values) != 1:
                # two numbers said one after the other: only when one number is not possible
                if not fits(link.quantity, link.point, amount, link.unit) or (
                    number.written and number.form == "short_decimal"
                ):
                    reasons.append(other.why)
                if number.written or reasons:
                    heard = self.r.narration.heard(v.start, v.end)
                    candidates += [
                        Candidate(value=tidy(x * factor), unit=link.unit, heard=heard, why=other.why)
                        for x in other.values
                    ]
                continue
            value = tidy(other.values[0] * factor)
            first, second = (
                fits(link.quantity, link.point, amount, link.unit),
                fits(link.quantity, link.point, value, link.unit),
            )
            if number.form == "two_digits":
                whole = link.quantity in word_list("readings_settle")
                if whole and link.quantity not in {"mass"}:
                    amount, value = value, amount
                near = (
                    known is not None
                    and known > 0
                    and (0.4 <= amount / known <= 2.5)
                    and not (0.4 <= value / known <= 2.5)
                )
                if near:
                    continue
                if other.why not in reasons:
                    reasons.append(other.why)
                candidates.append(
                    Candidate(
                        value=value,
                        unit=link.unit,
                        heard=self.r.narration.heard(v.start, v.end),
                        why=other.why,
                    )
                )
                continue
            if second and not first:
                amount, value = value, amount
            elif sure and _alike(value, sure) != _alike(amount, sure):
                # The value of the same thing before it tells: "the door fan 1.6, the other one point nine".
                if _alike(value, sure):
                    amount, value = value, amount
                    v.value = amount / factor  # what goes on from it counts from the value taken
                continue
            reasons.append(other.why) if other.why not in reasons else None
            candidates.append(
                Candidate(
                    value=value, unit=link.unit, heard=self.r.narration.heard(v.start, v.end), why=other.why
                )
            )
        return amount

    def _near_value(self, link: Link) -> Reading | None:
        """Return the last value of the same thing, to tell 6.8 from 68."""
        for taken in reversed(self.r.found.readings):
            if (
                taken.reading.quantity == link.quantity
                and taken.reading.component == link.component
                and taken.reading.value
            ):
                return taken.reading
        return None


def _alike(value: float, known: float) -> bool:
    return 0.66 <= value / known <= 1.5


def find_readings(narration: Narration) -> Found:
    """Return the readings of a narration, before corrections."""
    subject = Subject(narration)
    position = 0
    for number, (first, last) in enumerate(narration.sentences):
        inside: list[Value] = []
        while position < len(subject.values) and subject.values[position].start < last:
            if subject.values[position].start >= first:
                inside.append(subject.values[position])
            position += 1
        Sentence(subject, number, first, last, inside).run()
    repeat_values(subject)
    settle_sides(subject.found, subject.words)
    return subject.found


__all__ = ["find_readings"]
