"""All evidence for what a bare number is a value of, weighed together where the first rule may be wrong.

    _weighed(v, link) -> {quantity: share} or None

The looks of `bare_numbers` are asked in an order, and the first that can tell is believed. Where the second
opinion (`second_opinion/`) is sure of the same quantity nothing is weighed. Where it is not, every quantity
that anything speaks for is a candidate, and each gathers what speaks for it and against it: the rule that
took the number and how near its label stood, the second opinion, what was read just before and how alike in
size it was, the label that heads the sentence or the sentence before, what the component under talk has to
measure, the value whose unit comes behind, the power that was switched on or off, and whether a value of that
size is usual at all. The weights of the evidence are data (`weighing.toml`), made on narrations that the
second opinion was not trained on: `python -m tests.benchmarks.weighing --write`.
"""

from __future__ import annotations

import math
from functools import cache

from dictate.mentions.labels import LabelAt, find_components
from dictate.mentions.plausible import fits, usual
from dictate.mentions.quantities import FILLERS
from dictate.mentions.roles.ratings import Ratings
from dictate.mentions.second_opinion import Opinion, net_opinions
from dictate.mentions.told_outright import is_told_outright
from dictate.mentions.values import Value, find_values
from dictate.mentions.whose.taken import BY_ALL_EVIDENCE, COPULAS, ELECTRICAL, Link, Taken, Zone, mains
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import table

_FAR = 80
"""Words over which thousands are taken over from an alike number of ohms."""
AGREED = 0.9
"""From this chance on, the second opinion bears the rule out and nothing is weighed."""
_LEAST = 0.02
"""The chance from which the second opinion makes a quantity a candidate."""
_FLOOR = 0.002
BY_WORDS = frozenset(
    {
        "voltage", "current", "resistance", "capacitance", "pressure", "vacuum", "temperature", "superheat",
        "subcooling", "temperature_difference",
    }
)  # fmt: skip
"""The quantities that a bare number may be taken for because of the words around it."""

TAKEN, TRIED, CERTAIN, BORNE_OUT = 0.55, 0.3, 0.95, 0.97
"""Shares of all evidence.

From these on another quantity is taken; is taken where the first is unusual in size; needs no reason to look
at it; and the first is borne out.
"""
_NEEDED = {"label": 0.65, "row": 0.9}
"""The share that another quantity needs against a label, and against a form of words of one quantity."""
_KEPT = frozenset({"battery", "over", "condition", "ended", "printed"})
"""How a number was taken where it stays what it is: the words say it outright."""

_LEAST_OF_A_FAN = 3.0
"""Ohms that the winding of a fan motor has at least; from memory, small motors have ten and more."""


class Weighing(Ratings):
    """Weighs what speaks for each quantity that a bare number may be a value of."""

    def _opinion(self, v: Value) -> Opinion | None:
        return net_opinions(self.r.narration).get(v.numbers[0].start) if v.numbers else None

    def _row_opinion(self, v: Value, group: list[Value]) -> dict[str, float] | None:
        """Return the second opinion on a bare number; on the first of a row that of the whole row.

        The values of a row are of one quantity, and each of them says something about it.
        """
        own = self._opinion(v)
        if own is None:
            return None
        row = [v]
        for w in group if v is group[0] else ():
            if w is not v and w.bare and not w.clock and v.value and 0.5 <= w.value / v.value <= 2:
                row.append(w)
        if len(row) == 1:
            return own.quantities
        views = [o.quantities for o in map(self._opinion, row) if o is not None]
        grown = {
            q: math.exp(sum(math.log(max(x.get(q, 0.0), _FLOOR)) for x in views) / len(views))
            for q in own.quantities
        }
        whole = sum(grown.values())
        return {q: g / whole for q, g in grown.items()}

    def _weighed(self, v: Value, link: Link, group: list[Value]) -> dict[str, float] | None:
        """Return the share of each quantity that a bare number may be of; None where there is no doubt."""
        opinion = self._row_opinion(v, group)
        if opinion is None or opinion.get(link.quantity, 0.0) >= AGREED:
            return None
        scores: dict[str, float] = {}
        weights = _weights()
        for quantity, evidence in self._evidence(v, link, opinion).items():
            scores[quantity] = sum(weights.get(name, 0.0) * much for name, much in evidence.items())
        highest = max(scores.values())
        grown = {q: math.exp(s - highest) for q, s in scores.items()}
        whole = sum(grown.values())
        shares = {q: g / whole for q, g in grown.items()}
        self.r.narration.found.setdefault("weighed", {})[v.numbers[0].start] = shares
        return shares

    def _evidence(self, v: Value, link: Link, opinion: dict[str, float]) -> dict[str, dict[str, float]]:
        """Return what speaks for and against each candidate, by name, with how much of it there is."""
        heads = self._named_around(v)
        last = self.r.last(before=v.start, within=160)
        known = {q for q, share in opinion.items() if share >= _LEAST}
        known |= {link.quantity, *heads}
        if last is not None and not last.movement:
            known.add(last.reading.quantity)
        out: dict[str, dict[str, float]] = {}
        for quantity in known:
            seen = {f"is {quantity}": 1.0}
            seen["opinion"] = math.log(max(opinion.get(quantity, 0.0), _FLOOR))
            if quantity == link.quantity:
                rule = self._rule(v, link)
                seen["rule"] = 1.0
                seen[f"rule {rule}"] = 1.0
                seen[f"rule {rule} {quantity}"] = 1.0
            if quantity in heads:
                seen[heads[quantity]] = 1.0
            out[quantity] = seen
        self._by_the_reading_before(v, out)
        self._by_the_component(v, out)
        self._by_the_power(v, out)
        self._by_words_of_talk(v, out)
        self._by_its_size(v, link, out)
        return out

    def _rule(self, v: Value, link: Link) -> str:
        """Name the rule that took the number, a label with how far it stands."""
        if link.label_at is None:
            return link.how
        if link.label_at.end <= v.start:
            between = self.words[link.label_at.end : v.start]
            if all(w in COPULAS or w in FILLERS for w in between):
                return f"{link.how} beside"
            return f"{link.how} {'by' if len(between) <= 4 else 'far'}"
        return f"{link.how} {'beside behind' if link.label_at.start == v.end else 'behind'}"

    def _named_around(self, v: Value) -> dict[str, str]:
        """Return the quantities that the labels around a number name, each with where it stands."""
        out: dict[str, str] = {}
        begin = self.first
        if self.number:
            before = self.r.narration.sentences[self.number - 1]
            begin = before[0] if before[1] - before[0] <= 30 else begin
        for x in reversed(self.r.labels[self.r.span("labels", begin, v.start)]):
            quantity = x.label.quantity or x.label.default
            if quantity is None or quantity in out or x.end > v.start:
                continue
            between = any(x.end <= w.start and w.end <= v.start for w in self.values)
            where = "head before" if x.start < self.first else "head past" if between else "head"
            first = where if not out else f"{where} second"
            out[quantity] = f"{first}{' weak' if x.label.weak else ''}"
        for x in self.labels:
            quantity = x.label.quantity or x.label.default
            near = 0 <= x.start - v.end <= 3 and not any(v.end <= w.start < x.start for w in self.values)
            if near and quantity is not None and quantity not in out:
                out[quantity] = f"behind{' weak' if x.label.weak else ''}"
        for w in self.values:
            if w.start > v.end and w.quantity is not None and w.state == "value":
                kind = self._kind(w)
                if kind is not None and kind not in out:
                    out[kind] = "unit behind"
                break
        return out

    def _by_the_reading_before(self, v: Value, out: dict[str, dict[str, float]]) -> None:
        recent = [t for t in self.r.found.readings[-6:] if t.start < v.start and not t.movement]
        if not recent:
            return
        last = recent[-1]
        apart = self.number - last.sentence
        where = "here" if apart == 0 else "before" if apart == 1 else "earlier" if apart <= 4 else "far"
        seen = out.get(last.reading.quantity)
        if seen is not None:
            seen[f"last {where}"] = 1.0
            seen[f"last {where} {self._alike_in_size(v, last.reading.value)}"] = 1.0
            if last.reading.review:
                seen["last doubted"] = 1.0
        for t in recent[:-1]:
            seen = out.get(t.reading.quantity)
            if seen is not None and self.number - t.sentence <= 2:
                seen["recent"] = seen.get("recent", 0.0) + 0.2
                alike = self._alike_in_size(v, t.reading.value)
                if alike == "alike":
                    seen["recent alike"] = 1.0

    @staticmethod
    def _alike_in_size(v: Value, other: float | None) -> str:
        if other is None:
            return "unknown"
        if not other or not v.value:
            return "nought"
        ratio = v.value / other
        return "alike" if 0.7 <= ratio <= 1.4 else "near" if 0.33 <= ratio <= 3 else "unlike"

    def _by_the_component(self, v: Value, out: dict[str, dict[str, float]]) -> None:
        here = [c for c in self.components if c.end <= v.start]
        c = here[-1] if here else None
        where = "part"
        if c is None:
            earlier = self.r.components[self.r.span("components", max(0, v.start - 60), v.start)]
            c, where = (earlier[-1] if earlier else None), "part before"
        if c is None:
            return
        for quantity, seen in out.items():
            able = "bare" if c.component.bare == quantity else "able"
            seen[f"{where} {able if quantity in c.component.measures else 'unable'}"] = 1.0

    def _by_the_power(self, v: Value, out: dict[str, dict[str, float]]) -> None:
        mode = self.r.mode_at(v.start)
        for quantity in ("resistance", "current", "voltage"):
            if quantity in out and self._live_again(v):
                out[quantity][f"live {quantity}"] = 1.0
        for quantity, seen in out.items():
            if mode is not None:
                seen[f"mode {mode} {quantity}"] = 1.0
            if quantity in {"voltage", "current", "resistance"}:
                for p in self.points:
                    if p.kind in {"winding", "legs", "ground"} and 0 <= v.start - p.end <= 3:
                        seen[f"point {p.kind} {quantity}"] = 1.0

    def _by_words_of_talk(self, v: Value, out: dict[str, dict[str, float]]) -> None:
        """Look back for the nearest word that a quantity is spoken of with: "ohmed it", "clamped the leg"."""
        known = _talk()
        placed: set[str] = set()
        steps = 0
        for i in range(v.start - 1, max(0, v.start - 45), -1):
            steps += 1
            for quantity in known.get(self.words[i], ()):
                seen = out.get(quantity)
                if seen is None or quantity in placed:
                    continue
                where = "near" if steps <= 6 else "here" if i >= self.first else "before"
                seen[f"talk {'first' if not placed else 'second'} {where}"] = 1.0
                placed.add(quantity)
        for i in range(v.end, min(self.last, v.end + 4)):
            for quantity in known.get(self.words[i], ()):
                if quantity in out:
                    out[quantity]["talk behind"] = 1.0

    def _by_its_size(self, v: Value, link: Link, out: dict[str, dict[str, float]]) -> None:
        number = v.numbers[0]
        for quantity, seen in out.items():
            if number.places:
                seen[f"decimals {quantity}"] = 1.0
            if v.below or v.above or number.negative:
                seen[f"signed {quantity}"] = 1.0
            if quantity == link.quantity:
                good = usual(quantity, link.component, link.point, link.amount, link.unit)
            elif quantity not in BY_WORDS:
                continue
            else:
                unit = self.r.system.unit_of(quantity, self.r.found, v)
                good = fits(quantity, None, v.value, unit) and usual(quantity, None, None, v.value, unit)
            if not good:
                seen["odd"] = 1.0

    def _live_again(self, v: Value) -> bool:
        """Tell whether a bare number was read after the power came back on: no ohms are measured then."""
        if not v.bare:
            return False
        off, on = word_list("readings_power_off"), tuple(word_list("readings_power_on"))
        for i in range(v.start - 1, max(0, v.start - 45), -1):
            if self.words[i] in off:
                return False
            if " ".join(self.words[max(0, i - 2) : i + 1]).endswith(on):
                return True
        return False

    def _still_ohms(self, v: Value, link: Link, group: list[Value]) -> bool:
        """Tell whether ohms of one motor go on with those of another: "fans 22 ohms. Blower is 3.9, 3.9"."""
        last = next((t for t in reversed(self.r.found.readings) if t.start < group[0].start), None)
        if last is None or last.reading.quantity != "resistance" or self.number - last.sentence > 1:
            return False
        if last.reading.component in {None, link.component} or v.start - last.end > 16 or v.value > 200:
            return False
        before, now = last.reading.component or "", link.component or ""
        if not all("motor" in x or x == "compressor" or x.endswith("pump") for x in (before, now)):
            return False
        if "fan" in now and v.value < _LEAST_OF_A_FAN:
            return False
        since = self.words[last.end : v.start]
        if word_list("readings_of_amps") & set(since) or word_list("running_amps_draws") & set(since):
            return False
        said = " ".join(since)
        return not any(phrase in said for phrase in word_list("readings_power_on"))

    def _likelier(
        self, v: Value, group: list[Value], zone: Zone, link: Link, previous: Taken | None
    ) -> Link | None:
        """Take a bare number for another quantity where all the evidence together is for that one."""
        if not v.bare or link.unit_said or v.clock:
            return None
        live = link.quantity == "resistance" and not mains(v.value) and self._live_again(v)
        if live and link.label_at is None:
            other = self._assume(v, "current", None, "words")
            if other is not None:
                self._place(v, group, zone, other, previous)
                other.reasons.append(
                    "the power was back on, so amps are likelier than ohms; the unit was not said"
                )
            return other
        if link.quantity == "current" and link.label_at is None and self._still_ohms(v, link, group):
            other = self._assume(v, "resistance", None, "words")
            if other is not None:
                self._place(v, group, zone, other, previous)
                if len(group) < 2:
                    other.reasons.append("taken as ohms, as ohms were read before; the unit was not said")
                return other
        shares = None if self._goes_on(v, link) else self._weighed(v, link, group)
        if shares is None:
            return None
        link.share = shares.get(link.quantity, 0.0)
        if is_told_outright(self.r.narration, v.start):
            return None
        if link.how in _KEPT or (link.how == "test" and link.quantity == "duration"):
            return None
        if link.quantity == "temperature" and (v.below or v.above or any(x.negative for x in v.numbers)):
            return None
        if link.how == "label" and link.label_at is not None and link.label_at.end > v.start:
            return None  # a name that was said right behind its value is surely the value's
        good = usual(link.quantity, link.component, link.point, link.amount, link.unit)
        odd = not good and not link.derived and link.how != "row"
        for best, share in sorted(shares.items(), key=lambda x: -x[1]):
            if best == link.quantity and not odd:
                return None
            if share < (TRIED if odd else _NEEDED.get(link.how, TAKEN)):
                return None
            if best == link.quantity:
                continue
            other = self._assume_other(v, best)
            if other is None:
                if odd:
                    continue
                return None
            other.share = share
            if link.how in {"setting", "marking"}:
                other.how = link.how  # it stays what a control is set to
            other.derived = best == "temperature_difference"
            self._place(v, group, zone, other, previous)
            if odd and not usual(best, other.component, other.point, other.amount, other.unit):
                continue
            if share < CERTAIN:
                was, what = link.quantity.replace("_", " "), best.replace("_", " ")
                other.reasons.append(f"taken as a {what} {BY_ALL_EVIDENCE}; it may be a {was}")
            return other
        return None

    def _goes_on(self, v: Value, link: Link) -> bool:
        """Tell whether a value goes on a row whose head has its name: "current 204 on A, 207, 203"."""
        if link.quantity not in ELECTRICAL or link.label_at is not None:
            return False
        for t in reversed(self.r.found.readings):
            r = t.reading
            if t.sentence != self.number or r.quantity != link.quantity or not r.value or r.unit != link.unit:
                return False
            if not 0.75 <= v.value / r.value <= 1.33:
                return False
            if t.label_here:
                return True
        return False

    def _assume_other(self, v: Value, quantity: str) -> Link | None:
        if quantity in BY_WORDS:
            link = self._assume(v, quantity, self._own_head(v, quantity), "words")
            if link is not None and quantity == "resistance":
                self._in_thousands(v, link)
            return link
        if quantity not in {"duration", "concentration", "flow", "speed"}:
            return None
        last = self.r.last(quantity, before=v.start, within=60)
        if last is None or not last.reading.value or not 0.1 <= v.value / last.reading.value <= 10:
            return None  # these are hardly ever said without a unit the first time
        unit = last.reading.unit
        return Link(quantity, unit, v.value, None, None, unit_said=False, explicit=True, how="words")

    def _in_thousands(self, v: Value, link: Link) -> None:
        """Give ohms the thousands said with an alike number before: "ten K at 25 ... eight point six"."""
        for w in reversed(find_values(self.r.narration)):
            if w.end > v.start or w.quantity is None or v.start - w.end > _FAR or not w.value:
                continue
            factor = next((f for unit, f in w.quantity.means if unit == "ohm"), 1.0)
            if factor >= 1000 and 0.2 <= v.value / w.value <= 4:
                taken = next((t for t in self.r.found.readings if t.start <= w.start < t.end), None)
                read = taken.reading if taken is not None else None
                if read is not None and read.quantity == "resistance" and 0 < (read.value or 0) < 1000:
                    continue  # "48.3 and 0.2 meg to earth": the thousands are of the other one
                if self._of_another(w.end, v.start, read.component if read is not None else None):
                    return  # "sensor 34 K. Contactor 540 ohms. Heaters 38 and 39"
                link.amount = v.value * factor
                said = self.r.narration.heard(w.start, w.end)
                link.reasons.append(f"its thousands are taken over from {said!r}")
                return

    def _of_another(self, start: int, end: int, name: str | None) -> bool:
        """Tell whether a thing other than the one with thousands of ohms is named in between."""
        between = (c for c in find_components(self.r.narration) if start <= c.start and c.end <= end)
        return any(c.name != name and "resistance" in c.component.measures for c in between)

    def _own_head(self, v: Value, quantity: str) -> LabelAt | None:
        """Return the label of a quantity that stands in front of a number with no other value between."""
        for x in reversed(self.labels):
            if x.end <= v.start and (x.label.quantity or x.label.default) == quantity:
                between = any(x.end <= w.start and w.end <= v.start for w in self.values)
                return None if between else x
        return None


@cache
def _talk() -> dict[str, tuple[str, ...]]:
    """Return the words of talk, each with the quantities it speaks of."""
    out: dict[str, tuple[str, ...]] = {}
    for quantity, words in table("weighing")["talk"].items():
        for word in words:
            out[word] = (*out.get(word, ()), quantity)
    return out


@cache
def _weights() -> dict[str, float]:
    weights: dict[str, float] = table("weighing")["weights"]
    return weights


__all__ = ["AGREED", "BORNE_OUT", "BY_WORDS", "TAKEN", "Weighing"]
