"""The repair takes quantity, unit, place and digits of what it repairs, unless it brings its own."""

from __future__ import annotations

from dictate.mentions.corrections.alike import clear_loose
from dictate.mentions.corrections.cues import Corrections, Cue
from dictate.mentions.corrections.mistakes import words_of_correction
from dictate.mentions.plausible import fits
from dictate.mentions.quantities import tidy
from dictate.mentions.whose.taken import DIFFERENCES, LOOSE, Taken
from dictate.mentions.word_lists import word_list
from dictate.record.visit import Candidate
from dictate.units import UCUM


class Replaces(Corrections):
    """Puts one value in the place of another."""

    def _replace(self, old: Taken, new: Taken, cue: Cue | None = None) -> None:
        a, b = old.reading, new.reading
        role = a.role
        if old.value.word == "k" and b.quantity == "resistance" and a.quantity in DIFFERENCES:
            a.quantity, a.unit, a.ucum = "resistance", "ohm", UCUM["ohm"]
            a.value = tidy(old.value.value * 1000)
        elif not old.said_unit and new.said_unit and a.quantity != b.quantity:
            self._unit_of_list(old, new)
        # Places named in the words of the mistake ("on the wrong line") are not the repair's.
        misled = cue is not None and self._misled(old, new)
        if misled and b.quantity == a.quantity:
            new.place_said = new.place_said and a.component is None and a.point is None
        a.role = "retracted"
        # The cue says what the repair is a value of.
        own = words_of_correction(self.n, new.start, new.end)
        b.review = [
            r
            for r in b.review
            if LOOSE not in r and not (r.startswith("'") and r[1:].split("'")[0].lower() in own)
        ]
        if not b.review:
            b.confidence = max(b.confidence, min(a.confidence, 1.0))
        if not new.said_unit or b.quantity == a.quantity:
            inherits = not new.said_unit and b.quantity != a.quantity
            if not new.said_unit:
                if inherits or b.unit != a.unit:
                    b.value = new.value.value if b.value is not None else None
                b.quantity, b.unit, b.ucum = a.quantity, a.unit, a.ucum
                if old.said_unit:
                    b.unit_assumed = False
                factor = self._factor(old)
                if b.value is not None and factor != 1.0 and inherits:
                    b.value = tidy(new.value.value * factor)
            b.reference = b.reference if b.unit == "inHg" != a.unit else a.reference
            placed = new.place_said and not misled
            b.component = b.component if placed and b.component else a.component
            b.point = b.point if placed and b.point else a.point
            b.which = b.which or a.which
            b.derived = a.derived
        else:
            b.component = b.component or a.component
            b.point = b.point or a.point
            b.which = b.which or a.which
        lead = self.words[(cue.end if cue is not None else old.end) : new.start]
        read = bool(word_list("self_correction_measures") & set(lead)) or ("i" in lead and "read" in lead)
        if role == "rated" and read and b.role in {"measured", "rated"}:
            a.role, role = "rated", "measured"  # "the plate says 12, that's not right, I read 14"
        b.role = role if role != "retracted" else "measured"
        number = new.value.numbers[0] if new.value.numbers else None
        if b.quantity == "duration" and not new.said_unit and number is not None and number.form == "pair":
            minutes, seconds = divmod(number.value, 100)
            if seconds < 60:
                b.value, b.unit, b.ucum = tidy(minutes + seconds / 60), "min", UCUM["min"]
        if new.movement != old.movement:
            new.movement = old.movement
        self._digits(old, new)
        self._link(old, new)
        new.label = new.label or old.label

    def _unit_of_list(self, old: Taken, new: Taken) -> None:
        """Give the unit of "9.8, 9.9 and 9.6, sorry, 9.7 amps" to the whole list that has none."""
        b = new.reading
        row = [old]
        for t in reversed(self.taken[: self.taken.index(old)]):
            gap = self.words[t.end : row[-1].start]
            if t.said_unit or not gap or not set(gap) <= {",", "and"} or t.label_here:
                break
            row.append(t)
        if old.label_here or row[-1].label_here:
            return
        for t in row:
            a = t.reading
            a.quantity, a.unit, a.ucum = b.quantity, b.unit, b.ucum
            a.value, a.reference, a.point = tidy(t.value.value), None, None
            a.component, a.unit_assumed = b.component, False
            clear_loose(t)

    def _digits(self, old: Taken, new: Taken) -> None:
        """Put back digits that the speaker did not repeat: "two oh eight, no, oh seven" is 207."""
        a, b = old.reading.value, new.reading.value
        number = new.value.numbers[0] if len(new.value.numbers) == 1 else None
        if a is None or b is None or number is None or old.reading.unit != new.reading.unit:
            return
        led = number.form == "digits" and number.text.startswith("0")
        factor = self._factor(old)
        whole = old.value.value
        said = number.value
        unit_digit = 20 < whole < 100 and whole % 10 and 1 <= said <= 9 and float(said).is_integer()
        unit_digit = unit_digit and float(whole).is_integer() and not new.said_unit
        if a < 100 and not led and not (old.value.numbers and old.value.numbers[0].places) and not unit_digit:
            return
        joined: float | None = None
        sure = False
        if f"{whole:g}".replace(".", "").strip("0") == f"{said:g}".replace(".", "").strip("0") and not led:
            return  # the same digits: the point was put right, "600, wrong scale, 6 ohms"
        if (
            number.form == "digits"
            and number.text.startswith("0")
            and whole >= 100
            and float(whole).is_integer()
        ):
            width = len(number.text)
            joined, sure = whole - whole % 10**width + said, True
        elif (
            float(whole).is_integer()
            and (whole >= 100 or unit_digit)
            and float(said).is_integer()
            and 1 <= said < 100
            and whole / max(said, 1) >= 2
        ):
            width = len(str(int(said)))
            joined = whole - whole % 10**width + said
        elif not float(whole).is_integer() and 0 < said < 1 and number.places and whole > 1:
            # "nought point six five" was said whole
            first = self.words[number.start]
            if first in {"nought", "naught", "zero", "oh", "o"} or first.startswith("0"):
                return
            joined = float(int(whole)) + said
        if joined is None or joined == said:
            return
        joined = tidy(joined * factor)
        other = new.reading.value
        if sure:
            new.reading.value = joined
            return
        why = f"only the last digits may have been said again: {joined:g} or {other:g}"
        alone = fits(new.reading.quantity, new.reading.point, other or 0.0, new.reading.unit)
        close = (
            other is not None
            and a is not None
            and (
                new.reading.quantity in {"voltage", "vacuum", "resistance", "speed"}
                or (0 < said < 1 and whole / said >= 3)
                or not alone
                or (new.value.quantity is None and not (unit_digit and new.reading.quantity in DIFFERENCES))
            )
        )
        if close:
            new.reading.value, other = joined, other
        else:
            other = joined
        new.reading.review.append(why)
        new.reading.confidence = min(new.reading.confidence, 0.5)
        new.reading.candidates.append(
            Candidate(value=other, unit=new.reading.unit, heard=new.reading.heard, why=why)
        )
