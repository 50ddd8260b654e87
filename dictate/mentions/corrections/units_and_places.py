"""The unit or the place alone: "forty psi, I mean inches", "208 on the line side, sorry, load side"."""

from __future__ import annotations

from dictate.mentions.corrections.correction_words import CUTS
from dictate.mentions.corrections.cues import SMALL, Corrections, Cue
from dictate.mentions.corrections.unit_meant import KINDS, quantity_of, unit_meant
from dictate.mentions.labels import find_labels, find_points
from dictate.mentions.phrases import Phrase
from dictate.mentions.plausible import reason
from dictate.mentions.quantities import tidy
from dictate.mentions.unit_words import unit_phrases, unit_words
from dictate.mentions.whose.taken import DIFFERENCES, Taken
from dictate.mentions.word_lists import word_list
from dictate.units import UCUM


class UnitsAndPlaces(Corrections):
    """Puts a unit or a place right that was said alone."""

    def _units_and_places(self) -> None:
        self._units_at_head()
        for cue in self.cues:
            old = next((t for t in reversed(self.taken) if t.end <= cue.start), None)
            if (
                old is None
                or cue.start - old.end > 8
                or ({".", "?"} & set(self.words[old.end : cue.start]) and not cue.strong)
            ):
                continue
            if old.reading.role == "retracted":
                continue
            self._unit_alone(cue, old) or self._place_alone(cue, old)

    def _units_at_head(self) -> None:
        """Handle "a hundred and nine bar. Psi, that was the outer ring.": a unit alone opens a sentence."""
        for old in list(self.taken):
            if self.words[old.end : old.end + 1] not in (["."], [","]) or not old.said_unit:
                continue
            at = old.end + 1
            while self.words[at : at + 1] and self.words[at] in word_list("self_correction_unit_lead"):
                at += 1
            phrase = unit_phrases(self.n).get(at)
            if phrase is None or old.reading.role == "retracted":
                continue
            ends = self.words[phrase.end : phrase.end + 1]
            told = ends in (["rather"], ["sorry"], ["correction"]) or self.words[
                phrase.end : phrase.end + 2
            ] in (["i", "mean"], ["i", "meant"], ["i", "should"])
            if ends not in ([","], ["."], [], ["not"]) and not told:
                continue
            if self._heads_a_value(old, phrase):
                continue
            listed = at == old.end + 1 and ends == [","] and self.words[old.end] == ","
            if listed and not self._unit_of_its_kind(old, phrase):
                continue  # a list of units is none of these
            cue = Cue(old.end, at, True)
            if self._unit_alone(cue, old) and listed:
                new = next(t.reading for t in self.taken if t.start == phrase.start)
                new.review.append("two units were said of it, one after the other")
                new.confidence = min(new.confidence, 0.5)

    def _heads_a_value(self, old: Taken, phrase: Phrase) -> bool:
        """Tell whether the unit only opens what is measured next: "no volts. Ohms... open"."""
        behind = phrase.end
        while self.words[behind : behind + 1] and self.words[behind] in CUTS | {"...", "…"}:
            behind += 1
        if not any(t.start == behind and t is not old for t in self.taken):
            return False
        return not old.value.value or not self._unit_of_its_kind(old, phrase)

    def _unit_of_its_kind(self, old: Taken, phrase: Phrase) -> bool:
        """Tell whether the unit said alone measures the same, and no third one follows: "3 psi, bar, ..."."""
        if unit_phrases(self.n).get(phrase.end + 1) is not None:
            return False
        unit = unit_words()[phrase.key]
        if unit.kind != "reading" or not unit.means:
            return False  # "2 psi, an hour" counts something else
        meant = unit_meant(unit.id, dict(unit.means), old)
        return meant is not None and any({old.reading.unit, meant} <= kind for kind in KINDS)

    def _unit_alone(self, cue: Cue, old: Taken) -> bool:
        i = cue.end
        while (
            i < len(self.words)
            and i - cue.end < 6
            and (
                self.words[i] in SMALL - {"."}
                or self.words[i] in {"not", "in"}
                or (cue.told and self.words[i] == "so")
            )
        ):
            i += 1
        phrase = unit_phrases(self.n).get(i)
        if phrase is None or (old.value.quantity is None and not old.reading.unit):
            return False
        if any(
            t.start <= i < t.end or (t.start == phrase.end and not t.said_unit)
            for t in self.taken
            if t is not old
        ):
            return False
        if phrase.end - phrase.start == 1 and len(self.words[i]) == 1:
            return False
        if self.words[i] == "second" and old.reading.quantity != "duration":
            return False  # "first one eighteen ohms. Second, ..." goes on to the next
        if self._none_of_it(cue, i, phrase.key):
            return False
        if i and self.words[i - 1] in {"not", "the"}:
            return False  # "correction, the second was 1.6" names no unit
        unit = unit_words()[phrase.key]
        if unit.kind != "reading" or not unit.means:
            return False
        word = old.value.word
        if word == phrase.key:
            return False
        means = dict(unit.means)
        record_unit = unit_meant(unit.id, means, old)
        if unit.id == "degree" and old.reading.quantity in {"pressure", "current", "voltage", "vacuum"}:
            record_unit = self._degrees_of(old)
        if record_unit is None:
            return False
        quantity = self._named_difference(old) if record_unit.startswith("delta_") else None
        quantity = quantity or quantity_of(record_unit, old)
        if quantity is None:
            return False
        new = old.reading.model_copy(
            deep=True,
            update={
                "quantity": quantity, "unit": record_unit, "ucum": UCUM.get(record_unit),
                "value": tidy(old.value.value * means.get(record_unit, 1.0)), "unit_assumed": False,
                "at": self.n.at(old.value.start, phrase.end),
                "heard": self.n.heard(old.value.start, phrase.end),
                "retracts": old.reading.heard,
            },
        )  # fmt: skip
        # What was wrong with the number in the other unit is not wrong any more.
        why = reason(quantity, new.point, new.value, record_unit) if new.value is not None else None
        new.review = [r for r in new.review if "outside of" not in r and "does not fit" not in r] + (
            [why] if why else []
        )
        if not new.review:
            new.confidence = max(new.confidence, 0.9)
        new.reference = (
            ("vacuum_depth" if record_unit == "inHg" else old.reading.reference or "gauge")
            if quantity == "pressure"
            else None
        )
        if new.reference == "vacuum_depth" and record_unit != "inHg":
            new.reference = "gauge"
        old.reading.role = "retracted"
        self.taken.append(
            Taken(
                new,
                old.value,
                phrase.start,
                phrase.end,
                old.sentence,
                old.label,
                True,
                True,
                False,
                movement=old.movement,
            )
        )
        self.taken.sort(key=lambda t: t.start)
        return True

    def _none_of_it(self, cue: Cue, i: int, unit: str) -> bool:
        """Tell whether "no" in front of a unit says that there is none: "120 volts and no amps"."""
        if self.words[i - 1 : i] != ["no"] or i != cue.end:
            return False
        joined = self.words[i - 2 : i - 1]
        electric = unit in {"amp", "volt", "watt", "ohm"}
        return electric or joined in (["and"], ["with"], ["but"], ["has"], ["had"], ["is"], ["'s"])

    def _named_difference(self, old: Taken) -> str | None:
        """Return the difference whose name stands in front of a value: "subcooling at the rack 9 psi"."""
        names = [
            x.label.quantity
            for x in find_labels(self.n)
            if old.start - 8 <= x.start and x.end <= old.start and x.label.quantity in DIFFERENCES
        ]
        return names[-1] if names else None

    def _degrees_of(self, old: Taken) -> str:
        """Return the degrees that were meant where another unit slipped out: "9 psi, degrees I mean"."""
        base = "degC" if self.metric else "degF"
        return f"delta_{base}" if self._named_difference(old) is not None else base

    def _place_alone(self, cue: Cue, old: Taken) -> bool:
        """Move a value to the place that was meant: "208 on the line side, sorry, load side"."""
        i = cue.end
        while i < len(self.words) and i - cue.end < 5 and self.words[i] in SMALL - {"."}:
            i += 1
        point = next(
            (p for p in find_points(self.n) if p.start == i and old.reading.quantity in p.only), None
        )
        name = point.name if point else None
        end = point.end if point else 0
        if point is None:
            label = next(
                (
                    x
                    for x in find_labels(self.n)
                    if x.start == i and x.label.point and x.label.fits(old.reading.quantity)
                ),
                None,
            )
            if label is None:
                return False
            name, end = label.label.point, label.end
        if name is None or name == old.reading.point or old.reading.point is None:
            return False
        # "385, vapor side, no sorry, suction, 76": the next label is put right, not the value.
        if any(
            old.end <= x.start < cue.start and x.label.point and x.label.fits(old.reading.quantity)
            for x in find_labels(self.n)
        ):
            return False
        # What follows must not be a value of its own.
        nxt = next((t for t in self.taken if t.start >= end), None)
        if nxt is not None and nxt.start - end <= 4 and not {".", ","} & set(self.words[end : nxt.start]):
            return False
        new = old.reading.model_copy(
            deep=True,
            update={
                "point": name,
                "retracts": old.reading.heard,
                "at": self.n.at(old.value.start, end),
                "heard": self.n.heard(old.value.start, end),
            },
        )
        old.reading.role = "retracted"
        self.taken.append(
            Taken(
                new,
                old.value,
                i,
                end,
                old.sentence,
                old.label,
                old.said_unit,
                True,
                True,
                movement=old.movement,
            )
        )
        self.taken.sort(key=lambda t: t.start)
        return True
