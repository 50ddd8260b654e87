"""The role of a value: measured, or the rating of a plate or a part.

A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

from functools import cache
from typing import cast

from dictate.mentions.labels import components
from dictate.mentions.machine_times import ice_weighed
from dictate.mentions.roles.cues import Cue
from dictate.mentions.roles.rating_words import RatingWords
from dictate.mentions.roles.roles import Roles
from dictate.mentions.standing_tests import levels_of
from dictate.mentions.test_stretches import stretch_at
from dictate.mentions.told_outright import tell_role_outright
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import ELECTRICAL, NOMINAL_VOLTS, RATED_NOUNS, Taken, warmth_was_read
from dictate.mentions.word_lists import word_list
from dictate.record import visit as record
from dictate.record.visit import Reading
from dictate.vocabulary.load import table

_LEAST_VOLTS = 5
"""No part is made for less."""

_CAPACITOR_VOLTS = frozenset({250, 330, 370, 400, 440, 450, 475})
"""The voltages that motor capacitors are made for (IEC 60252-1 leaves them to the maker; common practice)."""

_OF_A_PART = frozenset({"motor", "order", "ordering", "ordered", "new", "buy", "spare", "replacement", "fan"})
"""Words in a sentence that describes a part by its watts."""


@cache
def plain_follow() -> frozenset[str]:
    """Return the words that may stand behind a number without being counted or described by it."""
    return frozenset(table("plausible")["words"]["follow"])


class Ratings(RatingWords):
    """The role of a value: measured, or the rating of a plate or a part."""

    def _put_on_test(self, cue: Cue, reading: Reading, v: Value) -> bool:
        """Tell whether a value was put on a test and is no setting ("put it to three hundred")."""
        stretch = stretch_at(self.r.tests, v.start)
        if stretch is None or reading.quantity not in {"pressure", "temperature", "duration", "vacuum"}:
            return False
        said = set(self.words[cue.start : cue.end])
        return bool(said & {"set", "put", "back", "left", "brought", "raised", "bumped", "took"})

    def _read_here(self, v: Value) -> bool:
        """Tell whether a word of reading a meter leads to the value."""
        lead = self.words[max(self.first, v.start - 4) : v.start]
        return bool({"got", "getting", "reading", "reads", "read", "measured", "metered", "have"} & set(lead))

    def _role(self, taken: Taken, roles: Roles, index: int) -> None:
        role, cue = roles.of(index, taken.reading.quantity)
        reading = taken.reading
        v = taken.value
        if cue is not None and cue.sure and v.numbers:
            tell_role_outright(self.r.narration, v.numbers[0].start)
        led = cue is not None and cue.where == "before"  # "I figure it's 45 in an hour"
        if role == "expected" and not led and v.start in levels_of(self.r.narration):
            role, cue = "measured", None  # "39.5 in the morning" was read then
        if role == "rated" and reading.quantity == "mass" and self._off_the_plate(v):
            role, reading.derived = "measured", True
        if v.state == "zero" and role == "rated":
            role = "measured"  # no plate says "nothing"
        if role == "target" and cue is not None and self._put_on_test(cue, reading, v):
            role, cue = "measured", None
        if self._set_and_not_read(v, taken, role):
            role = "target"
        if role == "target" and taken.how == "cycled" and warmth_was_read(self.r.found.readings):
            role, cue = "measured", None  # "second cycle cut out at 34" was seen
        if (
            role == "measured"
            and reading.quantity == "voltage"
            and self._of_phases(v)
            and not self._read_here(v)
        ):
            role, reading.component, reading.point = "rated", None, None  # "two oh eight three phase"
            reading.review.clear()
        if (
            taken.label_here
            and taken.label is not None
            and taken.label.rated
            and not self._of_the_next_rating(v, taken)
            and role in {"measured", "rated", "target"}
            and not (role == "measured" and cue is not None and cue.where == "after")
        ) and (
            not self._locked_draw(v)
            if cue is None
            else role != "measured"
            or cue.end <= v.start - 12
            or not word_list("ratings_locked_reads") & set(self.words[max(self.first, v.start - 4) : v.start])
        ):
            role = "rated"
        since = max([self.first, v.start - 4, *(x.end for x in self.values if x.end <= v.start)])
        pulled = {"pulling", "drawing", "pulled", "saw", "hit"} & set(self.words[since : v.start])
        if (
            role == "rated"
            and cue is not None
            and cue.where == "after"
            and reading.quantity == "current"
            and pulled
        ):
            role = "measured"  # "pulling 135 on LRA"
        if role == "measured" and taken.how in {"carry0", "list", "carry"}:
            before = self.r.last(taken.reading.quantity, before=v.start)
            carried_over = self.words[before.end if before is not None else v.start : v.start]
            if (
                before is not None
                and before.sentence == self.number
                and before.reading.role == "target"
                and cue is None
            ):
                at = carried_over[-2:] in (["was", "at"], ["sitting", "at"])
                came = at or self.words[v.end : v.end + 1] == [
                    "when"
                ]  # "he wants two, it was seven when I opened it"
                if {"was", "from"} & set(carried_over) and not came and self._was_set(before):
                    role = "earlier"  # "set it to 36, it was 40"; "it should be 4, she was at 11" was read
        if role == "target" and v.state == "open" and not self._should_open(cue):
            role = "measured"  # "the limit's open"
        if role == "target" and v.state == "open" and cue is not None and self._found_open(cue, v):
            role = "measured"  # "4 ohms is what they should read and this one's open"
        if role == "target" and reading.quantity == "current" and self._good_for(cue):
            role = "rated"  # "each good for eighteen amps"
        if role == "measured" and reading.quantity == "duration" and self._time_setting(v):
            role = "target"
        if role == "measured" and (self._adjusted(taken) or self._scheduled(taken) or self._parameter(taken)):
            role = "target"
        if role == "measured" and cue is None and self._target_in_other_words(taken):
            role = self.r.found.readings[-1].reading.role
        if role == "measured" and self._left_at(taken):
            role = "target"
        if role == "measured" and self._condition_of(taken):
            role = self.r.found.readings[-1].reading.role
        if role == "measured" and self._is_rating(v, taken):
            role = "rated"
        if role == "measured" and self._negated(v):
            role = "target"
        if (
            reading.quantity == "frequency"
            and reading.value in {50.0, 60.0}
            and role == "measured"
            and not taken.label_here
            and not word_list("readings_role_3") & set(self.words[max(self.first, v.start - 5) : v.start])
            and not self._with_measured_volts(v)
        ):
            role = "rated"
        control = components().get(reading.component or "")
        if (
            role == "measured"
            and taken.how == "component"
            and control is not None
            and control.sets == reading.quantity
        ):
            near = any(c.name == reading.component and 0 <= v.start - c.end <= 4 for c in self.components)
            ends = [c.end for c in self.components if c.name == reading.component and c.end <= v.start]
            said = set(self.words[max([self.first, v.start - 3, *ends[-1:]]) : v.start])
            if near and not word_list("readings_role_2") & said and not self._set_beside(v):
                role = "target"
        if (
            role == "measured"
            and taken.how == "setting"
            and (cue is None or cue.role != "measured" or cue.end < v.start - 1)
            and not (word_list("readings_role") | {"saw", "watched", "caught"})
            & set(self.words[max(self.first, v.start - 6) : v.start])
        ):
            role = "target"
        if role == "measured" and taken.how in {"figure", "reset"}:
            role = "target"
        told = cue is not None and cue.where == "after"  # "cut out at eighty by the sheet"
        if role == "target" and not told and self._it_acted(taken, cue):
            role = "measured"
        if role == "rated":
            self._rated_part(taken)
        reading.role = cast(record.Role, role)
        if reading.quantity == "mass" and role not in {"rated", "target", "expected", "earlier"}:
            taken.movement = not self._scale(v)

    def _should_open(self, cue: Cue | None) -> bool:
        said = set(self.words[cue.start : cue.end]) if cue is not None else set()
        return bool({"should", "supposed", "ought", "must", "want", "wants", "normally", "normal"} & said)

    def _found_open(self, cue: Cue, v: Value) -> bool:
        """Tell whether an open circuit is told of a thing by itself: ", and this one's open"."""
        between = self.words[cue.end : v.start]
        cut = next((k for k, w in enumerate(between) if w in {",", "and", "but"}), None)
        if cut is None or {"should", "want", "supposed"} & set(between[cut:]):
            return False
        own = between[cut + 1 :]
        return any(
            w in {"it's", "that's", "mine's", "she's", "this", "mine"}
            or (w in {"it", "that", "one"} and own[k + 1 : k + 2] in (["'s"], ["is"], ["was"], ["reads"]))
            for k, w in enumerate(own)
        )

    def _good_for(self, cue: Cue | None) -> bool:
        return cue is not None and self.words[cue.start : cue.end][-2:] == ["good", "for"]

    def _recent(self, quantity: str, within: int, start: int) -> Taken | None:
        """Return the value of this quantity taken last, when it stands at most `within` words in front."""
        last = self.r.last(quantity, before=start)
        return last if last is not None and start - last.end <= within else None

    def _adjusted(self, taken: Taken) -> bool:
        """Tell whether a control was moved to a value: "the cut out was set at 1.5 bar, I put it to 1"."""
        v, quantity = taken.value, taken.reading.quantity
        if quantity not in {"temperature", "temperature_difference", "duration", "pressure", "superheat"}:
            near = set(self.words[self.first : v.start])
            if quantity != "current" or {"overload", "overloads", "protection", "protector"}.isdisjoint(near):
                return False
        i = v.start - 1
        while i > self.first and self.words[i] in word_list("ratings_adjusted_by"):
            i -= 1
        said = self.words[i + 1 : v.start]
        if self.words[i] not in word_list("ratings_adjusts") or not {"to", "at", "on", "for"} & set(
            said[-3:]
        ):
            return False
        if self.words[i] in {"went", "cut", "dropped", "took", "left"} and self.words[i - 1] not in {
            "i",
            "we",
        }:
            return False
        before = self._recent(quantity, 16, v.start)
        if before is None or before.reading.role != "target":
            return False
        near = set(self.words[max(0, before.start - 12) : v.start])
        return bool(word_list("ratings_settings") & near) and not {"nitrogen", "regulator", "test"} & near

    def _parameter(self, taken: Taken) -> bool:
        """Tell whether a value is a further setting in a list of settings: "set point 2, difference 2"."""
        v = taken.value
        i = v.start - 1
        while i > self.first and self.words[i] in {"is", "'s", "at", "of", "to", "after", ":"}:
            i -= 1
        if self.words[i] not in word_list("ratings_parameters") or i < self.first:
            return False
        before = self.r.found.readings[-1] if self.r.found.readings else None
        if before is None or before.sentence != self.number or before.reading.role != "target":
            return False
        set_so = {"set", "setpoint", "setting", "settings", "programmed", "parameter", "parameters", "alarm"}
        far = 14 if {"i", "we"} & set(self.words[self.first : before.start]) else 6
        return v.start - before.end <= far and bool(set_so & set(self.words[self.first : v.start]))

    def _condition_of(self, taken: Taken) -> bool:
        """Tell whether a temperature is what a wanted or printed value is said for: "32.7 K at 0 degrees"."""
        before = self.r.found.readings[-1] if self.r.found.readings else None
        return (
            before is not None
            and taken.reading.quantity == "temperature"
            and before.reading.quantity in {"resistance", "voltage", "pressure"}
            and before.reading.role in {"target", "rated"}
            and taken.start - before.end <= 4
            and "at" in self.words[before.end : taken.start]
            and set(self.words[before.end : taken.start]) <= word_list("ratings_conditions")
        )

    def _with_measured_volts(self, v: Value) -> bool:
        """Tell whether a line frequency goes on from volts that were read: "446 and 443 volts, 60 Hz"."""
        before = self._recent("voltage", 4, v.start)
        return (
            before is not None
            and before.sentence == self.number
            and before.reading.role == "measured"
            and before.reading.value not in NOMINAL_VOLTS
        )

    def _rated_part(self, taken: Taken) -> None:
        """Give a rating to the part whose name stands with it: "24 volt transformer"."""
        v = taken.value
        reading = taken.reading
        if reading.quantity not in ELECTRICAL:
            return
        behind = next((c for c in self.components if v.end <= c.start <= v.end + 2), None)
        between = self.words[v.end : behind.start] if behind is not None else []
        if behind is not None and v.quantity is not None and not {",", "and", "."} & set(between):
            reading.component, reading.which = behind.name, behind.which
            return
        stop = max((x.end for x in self.values if x.end <= v.start), default=self.first)
        front = [c for c in self.components if stop <= c.start and c.end <= v.start]
        if front and reading.quantity not in front[-1].component.measures:
            return
        if front and not {",", ";"} & set(self.words[front[-1].end : v.start]):
            reading.component, reading.which = front[-1].name, front[-1].which

    def _scale(self, v: Value) -> bool:
        if ice_weighed(self.words, self.first, v.start, v.end):
            return True
        near = set(self.words[max(self.first, v.start - 5) : v.start])
        weighed = word_list("readings_scale") & near
        return bool(weighed) and not {"by", "charged", "put"} & near

    def _negated(self, v: Value) -> bool:
        before = self.words[max(self.first, v.start - 3) : v.start]
        return (
            before[-1:] == ["no"]
            and v.quantity is not None
            and self.words[v.start - 2 : v.start - 1] != [","]
        )

    def _is_rating(self, v: Value, taken: Taken) -> bool:
        """Tell whether a value only describes a part or a machine: "a 24-volt coil", "on a 45"."""
        reading = taken.reading
        before = self.words[v.start - 1] if v.start > self.first else ""
        nxt = self.words[v.end] if v.end < self.last else "."
        unit = v.quantity
        if reading.quantity == "voltage" and unit is None and self._dual_voltage(v):
            return True
        phase = "phase" in self.words[max(self.first, v.start - 2) : v.start]
        if reading.quantity == "voltage" and phase and v.value in NOMINAL_VOLTS and v.value >= 200:
            return True  # "three phase, 208"
        if unit is not None and reading.quantity in {"voltage", "current", "capacitance", "power"}:
            noun = any(
                c.start == v.end
                or (
                    c.start == v.end + 1
                    and self.words[v.end] in {"rated", "run", "dual", "dc", "ac", "new", "replacement"}
                )
                for c in self.components
            )
            machine = any(x.start == v.end and x.label.point == "box" for x in self.labels)
            told = taken.label_here and before in {"is", "'s", "was"}
            volts = reading.quantity == "voltage"
            small = volts and (v.value < _LEAST_VOLTS or not float(v.value).is_integer())
            if (noun or machine or nxt in RATED_NOUNS) and not self._plural(v) and not (told or small):
                return True  # but "its current is 1.1 amp compressor I am taking", "24.1 volt supply on it"
            if (
                before in {"a", "an", "the", "new", "another"}
                and not (self._plural(v) or (small and v.value > _LEAST_VOLTS))
                and nxt not in word_list("readings_is_rating_3")
                and (
                    noun
                    or nxt in RATED_NOUNS
                    or nxt in {"universal", "replacement", "one", "unit", "rated", "type"}
                )
            ):
                return True
        if (
            reading.quantity == "voltage"
            and unit is None
            and v.value in NOMINAL_VOLTS
            and before in word_list("readings_is_rating_2")
            and (nxt in RATED_NOUNS or nxt in word_list("ratings_supplied"))
        ):
            return True  # "put the primary on the two forty tap", "it's a two oh eight building"
        if reading.quantity == "capacitance" and v.range is not None and self._start_range(v):
            return True
        if self._printed(v) == ("volts" if reading.quantity == "voltage" else "size"):
            return reading.quantity in {"voltage", "capacitance"}
        if self._describes_a_part(v, taken) or self._part_of_it(v, taken):
            return True
        if v.marking or (reading.quantity == "capacitance" and self._reads_other(v)):
            return True
        if unit is not None and (self._tolerance_behind(v) or self._then_met(v, reading)):
            return True
        if unit is None and reading.quantity == "capacitance" and self._tolerance_behind(v):
            return True
        if (
            reading.quantity == "capacitance"
            and unit is None
            and (
                (before in word_list("readings_is_rating_2") and not self._read_pair(v))
                or "/" in self.words[v.start]
                or any(
                    w.word == "volt" and w.value in {250, 330, 370, 440, 450} and 0 <= w.start - v.end <= 8
                    for w in self.values
                )
                or (v.range is not None and self._range_then_reads(v))
                or (nxt in {"over", "plus", "slash"} and not self._read_pair(v))
                or (v.range == "high" and self.words[v.start - 3 : v.start - 2] in (["a"], ["an"]))
            )
        ):
            return True
        if (
            reading.quantity == "voltage"
            and v.value in NOMINAL_VOLTS
            and nxt in {"is", "reads", "was", "measures", "'s"}
            and any(x.start == v.end + 1 for x in self.values)
        ):
            return True  # "the controller's 24 volts is 25.1"
        if reading.quantity == "resistance" and nxt in {"resistor", "resistors"}:
            return True
        if (
            reading.quantity == "resistance"
            and unit is not None
            and (
                nxt in word_list("ratings_sensor_types")
                or (before in {"a", "an"} and not self._plural(v) and nxt in {".", ",", "at", "and", "one"})
            )
            and self.words[v.end - 1] in {"k", "kilohm", "kilo", "ohm"}
        ):
            return True  # "both ten K types", "the outlet sensor is a 10 K"
        if (
            reading.quantity == "pressure"
            and self.words[v.end - 1] == "pound"
            and v.value > 1
            and nxt.isalpha()
            and nxt not in plain_follow()
            and not any(s == v.end for s, _ in self.items)
        ):
            return True  # "the 600 pound cuber"
        if self._of_the_tester(v, reading):
            return True
        if (
            unit is not None
            and reading.quantity in {"voltage", "current", "power"}
            and self._singular(v)
            and (before in {"a", "an"} or not (self._measured_talk(v) or self._of_a_leg(v)))
        ):
            return True
        if reading.quantity == "power" and self._while_on(v):
            return False
        last = self.r.last(before=v.start, within=2) if reading.quantity == "power" else None
        if last is not None and last.reading.quantity == "current" and last.reading.role == "measured":
            return False  # "0.7 amps, 84 watts": read on the same meter
        if reading.quantity == "power" and (
            (v.bare and self._like_the_watts_before(v)) or self._in_a_row_read(v) or self._watts_read(v)
        ):
            return False
        if reading.quantity == "power" and not word_list("readings_is_rating") & set(
            self.words[max(self.first, v.start - 6) : v.start]
        ):
            return True
        if (
            unit is not None
            and reading.quantity in {"voltage", "current", "capacitance", "speed", "frequency"}
            and self._part_talk(v)
        ):
            return True
        if reading.quantity == "capacitance" and unit is not None and before in {"a", "an", "new", "another"}:
            return True
        if (
            reading.quantity == "voltage"
            and before in {"at", "on"}
            and self.words[v.start - 2 : v.start - 1] in (["watt"], ["watts"])
        ):
            return True
        if (
            reading.quantity == "voltage"
            and unit is None
            and self.words[v.start - 2 : v.start] in (["amps", "at"], ["ohms", "at"])
        ):
            return True
        if unit is not None and self._marking_goes_on(v, reading, taken):
            return True
        return before == "of" and unit is None and reading.quantity == "current"

    def _marking_goes_on(self, v: Value, reading: Reading, taken: Taken) -> bool:
        """Tell whether a description goes on: "a motor, 9 watts, CW, 115 volts", "35 at 450 volt"."""
        last = self.r.last(before=v.start)
        if last is None or last.sentence != self.number or v.start - last.end > 4:
            return False
        gap = self.words[last.end : v.start]
        if reading.quantity == "voltage" and last.reading.quantity == "capacitance":
            return v.value in _CAPACITOR_VOLTS and set(gap) <= {"at", ",", "and", "a", "by", "/", "slash"}
        if (
            last.reading.role not in {"rated", "expected"}
            or last.reading.quantity not in ELECTRICAL | {"power", "speed", "frequency"}
            or reading.quantity not in {"voltage", "current", "power", "speed", "frequency"}
            or last.reading.quantity == reading.quantity
            or taken.label_here
            or self.words[v.start] in {"volts", "amps", "watts"}
        ):
            return False
        if last.reading.quantity == "power" and not _OF_A_PART & set(self.words[self.first : v.start]):
            return False
        if gap[:1] != ["at"] and self._set_against(last):
            return False
        named = any(last.end <= s < v.start for s, _ in self.items)
        at_place = self.words[v.end : v.end + 1] in (["at"], ["on"], ["across"], ["in"], ["coming"])
        told = word_list("readings_reads_other") | word_list("readings_measured_talk")
        return not named and not at_place and not (told - {",", "and"}) & set(gap)
