"""Bare numbers whose frame says what they are: "same thing, | 12", "the right figure is | 5.4".

A frame is a form of words that has room for one quantity only, or for the quantity of another value that it
points to. A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

from dictate.mentions.quantities import FILLERS
from dictate.mentions.roles.compared import Compared
from dictate.mentions.told_outright import tell_outright, tell_proved
from dictate.mentions.values import Value
from dictate.mentions.whose.climates import climate_kinds
from dictate.mentions.whose.taken import Link, Taken
from dictate.mentions.word_lists import word_list

_STOPS = frozenset((".", ",", ";", ":", "?", "!"))
_FAR = 60
_EARTH = frozenset(("earth", "ground", "frame", "shell", "case", "body", "chassis"))
_WARM = 25
"""What condenses warmer than this, in degC, was likelier told in degrees than in bar: from memory."""


class Frames(Compared):
    """Tells bare numbers by the frame that they stand in."""

    def _framed(self, v: Value) -> Link | None:
        """Return what a bare number is by the frame that it stands in."""
        if not v.bare or v.clock or v.range or v.marking:
            return None
        return (
            self._of_a_climate(v)
            or self._line_before_superheat(v)
            or self._warm_gas(v)
            or self._same_number(v)
            or self._right_figure(v)
            or self._to_be_exact(v)
            or self._windings_then_earth(v)
            or self._torr_goes_on(v)
            or self._probe_moved(v)
            or self._on_a_probe(v)
            or self._with_it_at(v)
            or self._control_terminal(v)
        )

    def _of_a_climate(self, v: Value) -> Link | None:
        """Read "it climbed to | 91 | and 78 percent" as warmth and humidity, as they were told before."""
        kind, sure = climate_kinds(self.r.narration).get(v.start, (None, False))
        if kind is None:
            return None
        named = any(
            0 <= v.start - x.end <= 2 and x.label.fits(kind) and not x.label.weak for x in self.labels
        )
        if named:
            return None  # "the box was 71 with 28 percent": its name tells the place as well
        if sure:
            tell_proved(self.r.narration, v.start)
            return self._outright(v, kind)
        link = self._assume(v, kind, None, "row")
        if link is not None:
            link.reasons.append("no unit was said: it may be the humidity as well")
        return link

    def _on_a_probe(self, v: Value) -> Link | None:
        """Read "78 percent on my meter and | 29 on the probe": a thermometer shows warmth.

        A probe whose ohms are told, and a number that has a name in front, are other things.
        """
        behind = self.words[v.end : v.end + 3]
        if len(behind) < 3 or behind[0] not in {"on", "by", "off", "from"} or not self._room_like(v.value):
            return None
        if behind[1] not in {"the", "my", "a", "this"} or behind[2] not in word_list("thermometers_read"):
            return None
        if any(self._kind(w) == "resistance" for w in self.values):
            return None
        lead = self._lead(v, 1)
        if lead == ["at"]:
            return None  # "the klixon let go at 53 on my probe": where it acted
        if v.start > self.first and not set(lead) <= word_list("readings_plain") | _STOPS:
            return None
        return self._assume(v, "temperature", None, "row")

    def _lead(self, v: Value, reach: int = 6) -> list[str]:
        return [w for w in self.words[max(self.first, v.start - reach) : v.start] if w not in FILLERS]

    def _outright(self, v: Value, quantity: str, point: str | None = None) -> Link | None:
        link = self._assume(v, quantity, None, "row")
        if link is not None:
            tell_outright(self.r.narration, v.start)
            link.point = point or link.point
        return link

    def _line_before_superheat(self, v: Value) -> Link | None:
        """Read "51, which is 24, line | 32, eight superheat" as how warm the suction line was."""
        if self.words[v.start - 1 : v.start] != ["line"] or self.words[v.start - 2] not in _STOPS | {
            "suction"
        }:
            return None
        behind = self.words[v.end : min(self.last, v.end + 7)]
        if not {"superheat", "superheats"} & set(behind) or behind[:1] not in (
            [","],
            ["so"],
            ["and"],
            ["for"],
        ):
            return None
        if not self.r.system.fits_temperature(v.value):
            return None
        return self._outright(v, "temperature", "suction")

    def _warm_gas(self, v: Value) -> Link | None:
        """Read "suction 0.5 bar, condensing | 38" as a temperature, whatever unit was said before."""
        lead = self._lead(v)
        while lead and lead[-1] in word_list("frames_led"):
            lead.pop()
        if lead[-1:] != ["condensing"] or not self._metric() or v.value < _WARM:
            return None
        last = self.r.last("pressure", before=v.start, within=_FAR)
        if last is None or last.reading.point != "suction" or last.reading.role != "measured":
            return None
        front = self.words[max(0, last.start - 6) : last.start]
        if not {"evaporating", "evaporation"}.isdisjoint(front):
            return None  # told as pressures, the one and the other
        if not self.r.system.fits_temperature(v.value):
            return None
        link = self._outright(v, "temperature", "saturated condensing")
        if link is not None and v.value < 4 * (last.reading.value or 0.0):
            link.reasons.append("no unit was said: it may be a pressure")
        return link

    def _torr_goes_on(self, v: Value) -> Link | None:
        """Read "down to point six of a torr, second time I got | point two five" in torr as well."""
        if not 0 < v.value < 20 or self.r.mode_at(v.start) != "vacuum":
            return None
        last = self.r.last("vacuum", before=v.start, within=_FAR)
        if last is None or last.value.value == last.reading.value or last.reading.unit != "micron":
            return None  # only where the unit said was a greater one
        number = v.numbers[0] if len(v.numbers) == 1 else None
        if number is None or not (number.places or number.form == "decimal"):
            return None
        tell_outright(self.r.narration, v.start)
        return self._like(v, last)

    def _same_number(self, v: Value) -> Link | None:
        """Read "waited and tried again, same thing, | twelve" as the value that was twelve before."""
        lead = self._lead(v)
        while lead and lead[-1] in _STOPS:
            lead.pop()
        if not any(" ".join(lead[-n:]) in word_list("frames_same") for n in (1, 2, 3)):
            return None
        alike = [
            t
            for t in self.r.found.readings[-14:]
            if t.start < v.start
            and v.start - t.end <= 90
            and t.value.state == "value"
            and t.value.value == v.value
        ]
        kinds = {t.reading.quantity for t in alike}
        return self._as_it_was(v, alike[-1]) if len(kinds) == 1 else None

    def _as_it_was(self, v: Value, t: Taken) -> Link | None:
        link = self._like(v, t)
        if link is not None:
            tell_outright(self.r.narration, v.start)
            link.component, link.point, link.label = t.reading.component, t.reading.point, None
        return link

    def _right_figure(self, v: Value) -> Link | None:
        """Read "Six point one was before it had settled. The right figure is | five point four"."""
        lead = self._lead(v, 7)
        while lead and lead[-1] in word_list("frames_led"):
            lead.pop()
        if len(lead) < 2 or lead[-1] not in word_list("frames_figures"):
            return None
        if lead[-2] not in word_list("frames_right") or lead[-2:] == ["right", "one"]:
            return None  # the right one of two things
        last = next(
            (
                x
                for x in reversed([x for x in self.r.values if x.end <= v.start and x.state == "value"])
                if v.start - x.end <= 30
            ),
            None,
        )
        if last is None:
            return None
        alike = [t for t in self.r.found.readings if t.value.state == "value" and t.value.value == last.value]
        return self._as_it_was(v, alike[0]) if alike else None

    def _to_be_exact(self, v: Value) -> Link | None:
        """Read "zero meg, well, the display said | 0.02", "well, | 26.2 to be exact" as the same again."""
        at = self.values.index(v) if v in self.values else 0
        if at == 0:
            return None
        before = self.values[at - 1]
        between = self.words[before.end : v.start]
        if not 2 <= len(between) <= 9 or not word_list("exactly_between").issuperset(between):
            return None
        small = (
            before.value == 0 and 0 < v.value < 1 and not {"display", "screen", "readout"}.isdisjoint(between)
        )
        if not small and word_list("exactly_marks").isdisjoint([*between, *self.words[v.end : v.end + 4]]):
            return None
        last = self.r.found.readings[-1] if self.r.found.readings else None
        if last is None or last.value is not before or last.reading.role != "measured":
            return None
        if last.reading.quantity in {"duration", "mass"} or last.value.state != "value":
            return None
        small = before.value == 0 and 0 < v.value < 1
        if not small and not (before.value and 0.6 <= v.value / before.value <= 1.6):
            return None
        return self._as_it_was(v, last)

    def _probe_moved(self, v: Value) -> Link | None:
        """Read "superheat I got seven, then I moved the clamp and got | eight" as the superheat again."""
        lead = self._lead(v, 9)
        if not lead or lead[-1] not in word_list("probe_reads") or word_list("probes").isdisjoint(lead):
            return None
        if word_list("probe_moves").isdisjoint(lead):
            return None
        last = self.r.last(before=v.start, within=16)
        if last is None or last.sentence != self.number or not last.reading.value:
            return None
        if last.reading.quantity not in {"superheat", "subcooling", "temperature"}:
            return None
        return self._as_it_was(v, last) if 0.3 <= v.value / last.reading.value <= 3 else None

    def _with_it_at(self, v: Value) -> Link | None:
        """Read "the switch is 0.3 ohms with the coil at | 19" as how cold the coil was then."""
        lead = self.words[max(self.first, v.start - 4) : v.start]
        if lead[:2] != ["with", "the"] or lead[3:] != ["at"] or lead[2] not in word_list("with_it_at"):
            return None
        behind = self.words[v.end : v.end + 1]
        if (behind and behind[0] not in _STOPS | {"and", "so"}) or not self.r.system.fits_temperature(
            v.value
        ):
            return None
        return self._outright(v, "temperature", "coil" if lead[2] in {"coil", "evaporator"} else "box")

    def _control_terminal(self, v: Value) -> Link | None:
        """Read "O terminal | 24.9 now" as volts of the controls."""
        lead = self._lead(v, 5)
        while lead and lead[-1] in {"is", "was", "'s", "reads", "has", "had", "shows", "at", "now", "still"}:
            lead.pop()
        if lead[-1:] != ["terminal"] or lead[-2:-1] == [] or lead[-2] not in word_list("control_terminals"):
            return None
        return self._outright(v, "voltage") if 20 <= v.value <= 32 else None

    def _windings_then_earth(self, v: Value) -> Link | None:
        """Read "Comp two, | 1.1, | 1.1, | 1.2, and earth, 150 meg" as ohms of its windings."""
        row = [x for x in self.values if x.bare and not x.clock and x.state == "value"]
        if v.bare and v.start in self.r.narration.found.get("plain ohms", ()):
            return self._outright(v, "resistance")
        if v not in row or len(self.values) < 3:
            return None
        at = self.values.index(v)
        begin = at
        while begin and self._listed(self.values[begin - 1], self.values[begin]):
            begin -= 1
        end = at
        while end + 1 < len(self.values) and self._listed(self.values[end], self.values[end + 1]):
            end += 1
        three = self.values[begin : end + 1]
        if len(three) != 3 or min(x.value for x in three) <= 0:
            return None
        if max(x.value for x in three) > 1.5 * min(x.value for x in three):
            return None
        earth = next((x for x in self.r.values if x.start >= three[-1].end), None)
        if earth is None or (earth.start >= self.last and earth.state != "open"):
            return None  # "5.6, 5.6, 5.5. Frame, OL"
        between = self.words[three[-1].end : min(max(self.last, earth.end), earth.end + 3)]
        meg = earth.word in {"megohm", "meg", "mega"} or earth.state == "open"
        if earth.start - three[-1].end > 8 or not _EARTH & set(between) or not meg:
            return None
        return self._outright(v, "resistance")

    def _listed(self, one: Value, two: Value) -> bool:
        between = self.words[one.end : two.start]
        return one.bare and two.bare and bool(between) and set(between) <= {",", "and"}


__all__ = ["Frames"]
