"""Values that only describe a part: what is printed on it, what it was bought as, its range.

A link of the chain of classes that read one sentence; `rating_words.py` and `ratings.py` come after it.
"""

from __future__ import annotations

from dictate.mentions.states import States
from dictate.mentions.told_outright import tell_role_outright
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import NOMINAL_VOLTS, Taken
from dictate.mentions.word_lists import word_list
from dictate.record.visit import Reading
from dictate.vocabulary.load import table

_TEST_VOLTS = frozenset({50, 100, 250, 500, 1000, 2500, 5000})
"""The voltages that insulation testers offer (IEC 61557-2 gives the usual ones)."""


_BEHIND_WATTS = 8


class Described(States):
    """Questions about what a part is made for."""

    def _describes_a_part(self, v: Value, taken: Taken) -> bool:
        """Tell whether a value describes a part or a machine and nothing was read."""
        reading = taken.reading
        return (
            self._size_on_a_plate(v)
            or self._new_size(v, reading)
            or self._range_of_a_part(v, reading)
            or self._volts_and_watts(v, reading)
            or self._of_the_rated(v, taken)
            or self._rated_coil(v, reading)
            or self._volts_of_a_machine(v, reading)
        )

    def _volts_of_a_machine(self, v: Value, reading: Reading) -> bool:
        """Tell whether volts tell which machine it is: "line 221, 230 machine", "it's a 208 unit"."""
        if reading.quantity != "voltage" or v.value not in NOMINAL_VOLTS:
            return False
        lead, behind = self.words[v.start - 1], self.words[v.end : v.end + 2]
        named = lead in word_list("ratings_names_a_kind") and bool(behind)
        if not named or behind[0] not in word_list("ratings_machines"):
            return False
        if behind[1:] and behind[1] not in word_list("ratings_kind_ends"):
            return False  # "221 at the line, 230 motor running"
        tell_role_outright(self.r.narration, v.numbers[0].start)
        return True

    def _size_on_a_plate(self, v: Value) -> bool:
        """Tell whether a value is named by the plate that it stands on: "4.4 on a 4.0 tag"."""
        behind = self.words[v.end : v.end + 1]
        return (
            bool(behind)
            and behind[0] in word_list("ratings_plates")
            and self.words[v.start - 1] in {"a", "an", "the", "its"}
            and v.start > self.first
        )

    def _new_size(self, v: Value, reading: Reading) -> bool:
        """Tell whether a standard size tells which capacitor was put in: "new cap, five mic"."""
        if reading.quantity != "capacitance" or v.range:
            return False
        if reading.value not in table("plausible")["sizes"]["capacitor"]:
            return False
        a = v.start
        while a > self.first and self.words[a - 1] not in {".", ";", "but"} and v.start - a < 9:
            a -= 1
        front = self.words[a : v.start]
        if not word_list("ratings_fresh") & set(front) or v.numbers[0].places:
            return False
        told = (
            word_list("readings_part_talk") | word_list("ratings_met") | {"on", "side", "gave", "at", "only"}
        )
        return not told & set(front) and not any(a <= x.start < v.start for x in self.values if x is not v)

    def _range_of_a_part(self, v: Value, reading: Reading) -> bool:
        """Tell whether a pressure is the end of a transducer's range: "the part is zero to ten bar"."""
        if reading.quantity != "pressure" or self.words[v.start - 1] not in {"to", "-"}:
            return False
        low = self.words[v.start - 2] if v.start - 2 >= self.first else ""
        if low not in {"zero", "0", "nought", "naught", "oh"}:
            return False
        return any(
            c.name in {"pressure transducer", "pressure sensor"} and -12 <= v.start - c.end <= 20
            for c in self.r.components
        )

    def _rated_coil(self, v: Value, reading: Reading) -> bool:
        """Tell whether volts tell which coil a part has: "coil is 240 volt", "three pole, 480 coil"."""
        if reading.quantity != "voltage" or v.value not in NOMINAL_VOLTS:
            return False
        lead, behind = self.words[max(self.first, v.start - 3) : v.start], self.words[v.end : v.end + 1]
        if word_list("readings_role") & set(lead) or {"at", "across", "got", "has", "had", "with"} & set(
            lead
        ):
            return False
        singular = self.words[v.end - 1] == "volt"
        if behind == ["coil"]:
            return singular or any(w in word_list("ratings_coil_leads") for w in lead[-2:])
        ends = not behind or behind[0] in {",", ".", ";", "and", "but"}
        return singular and ends and lead[-1:] in (["is"], ["'s"], ["was"], ["a"]) and "coil" in lead[:2]

    def _volts_and_watts(self, v: Value, reading: Reading) -> bool:
        """Tell whether a nominal voltage goes with watts as on a heater: "is 230 volt, 70 watt"."""
        if reading.quantity != "voltage" or v.value not in NOMINAL_VOLTS or v.quantity is None:
            return False
        nxt = next((x for x in self.values if x.start >= v.end), None)
        if (
            nxt is None
            or nxt.word != "watt"
            or not set(self.words[v.end : nxt.start]) <= {",", "and", "at", "a"}
        ):
            return False
        return self.words[nxt.end - 1] == "watt" or self.words[v.end - 1] == "volt"

    def _like_the_watts_before(self, v: Value) -> bool:
        """Tell whether watts go on from watts that were read: "takes 21 watts, the middle one 22"."""
        last = self.r.last("power", before=v.start, within=8)
        return last is not None and last.sentence == self.number and last.reading.role == "measured"

    def _while_on(self, v: Value) -> bool:
        """Tell whether watts were read while a part was on: "2.9 kilowatts when I force it"."""
        behind = self.words[v.end : v.end + 6]
        return behind[:1] in (["when"], ["while"], ["with"]) and bool(
            {"i", "it", "it's", "running", "on", "forced", "force", "called", "energized"} & set(behind[1:])
        )

    def _watts_read(self, v: Value) -> bool:
        """Tell whether watts were read on a meter: "41 watts together", "62 watts and she was 90 before"."""
        behind = self.words[v.end : min(self.last, v.end + _BEHIND_WATTS)]
        if behind[:2] in (["by", "the"], ["on", "the"], ["by", "my"], ["on", "my"]):
            return bool(word_list("ratings_watt_meters") & set(behind[2:4]))
        if behind[:1] and behind[0] in word_list("ratings_summed"):
            return True
        was = next((k for k, w in enumerate(behind) if w in {"was", "were"}), None)
        return (
            was is not None
            and bool({"it", "she", "he", "they", "that"} & set(behind[:was]))
            and ("before" in behind[was:])
        )

    def _in_a_row_read(self, v: Value) -> bool:
        """Tell whether watts of a motor or a pump stand in a row of what was read while it ran.

        As in "taking 9.4 amps at 234 volts. Circulator 45 watts"; "new motor, nine watts" is a rating.
        """
        if self.words[v.end - 1] != "watts":
            return False
        last = self.r.last(before=v.start, within=7)
        if last is None or last.reading.role != "measured" or last.reading.unit not in {"A", "V", "Hz", "W"}:
            return False
        front = [c for c in self.components if c.end <= v.start <= c.end + 2 and c.start >= last.end]
        between = set(self.words[last.end : v.start])
        fresh = word_list("ratings_fresh") | {"replaced", "fitted", "ordered", "plate", "rated", "a"}
        return bool(front) and "heater" not in front[-1].name and not between & fresh

    def _was_set(self, target: Taken) -> bool:
        """Tell whether a target is a setting and no wish: what it "was" is then the setting of before."""
        return bool(
            word_list("ratings_set_words") & set(self.words[max(self.first, target.start - 9) : target.start])
        )

    def _scheduled(self, taken: Taken) -> bool:
        """Tell whether a time is how a timer is set: "four defrosts a day, thirty minutes"."""
        v = taken.value
        if taken.reading.quantity != "duration":
            return False
        a, b = max(self.first, v.start - 9), min(self.last, v.end + 7)
        often = False
        for i in range(a + 1, b - 1):
            if self.words[i] in {"a", "per", "each", "every", "an"} and self.words[i + 1] in {"day", "night"}:
                counted = self.words[i - 1]
                often = (
                    often
                    or counted in word_list("ratings_times")
                    or (counted.isdigit() and int(counted) < 25)
                )
        told = word_list("ratings_took") & set(self.words[max(self.first, v.start - 5) : v.start])
        return often and not told

    def _set_against(self, rated: Taken) -> bool:
        """Tell whether a rating was only set against what was read: "5.1 against 6.4 on its plate"."""
        read = self.r.last(rated.reading.quantity, before=rated.start, within=7)
        return read is not None and read.sentence == rated.sentence and read.reading.role == "measured"

    def _of_the_next_rating(self, v: Value, taken: Taken) -> bool:
        """Tell whether the words of a rating stand behind the next value: "8 amps even, 15.2 RLA"."""
        nxt = next((x for x in self.values if x.start >= v.end), None)
        if nxt is None or v.quantity is None:
            return False
        places = [x.start for x in self.labels if x.label is taken.label]
        apart = bool({",", "but", "and", "against", "of"} & set(self.words[v.end : nxt.start]))
        return apart and bool(places) and all(nxt.end <= at <= nxt.end + 1 for at in places)

    def _of_the_tester(self, v: Value, reading: Reading) -> bool:
        """Tell whether a voltage is what an insulation tester was set to: "megged it at 500 volts"."""
        return (
            reading.quantity == "voltage"
            and v.value in _TEST_VOLTS
            and bool(
                word_list("ratings_insulation") & set(self.words[max(self.first, v.start - 8) : v.end + 8])
            )
            and bool({"at", "on", "with", ",", "it"} & set(self.words[v.start - 2 : v.start]))
        )

    def _locked_draw(self, v: Value) -> bool:
        """Tell whether locked rotor amps were drawn and not printed: "locked rotor draw 22 amps".

        What is told of how long it drew them, or of what it did then, was seen as well.
        """
        front = self.words[max(self.first, v.start - 3) : v.start]
        if {"draw", "drew", "pulled", "inrush", "pulls"} & set(front):
            return True
        behind = self.words[v.end : min(self.last, v.end + 7)]
        if behind[:1] in (["for"], ["till"], ["until"]):
            return bool(word_list("ratings_moments") & set(behind)) or behind[0] != "for"
        led = {"and", ",", "then", "before"} & set(behind[:1])
        return bool(led) and bool(word_list("ratings_gave_up") & set(behind[1:5]))

    def _set_beside(self, v: Value) -> bool:
        """Tell whether it is said behind a control's value what it is set to: "thermostat 81, set for 74"."""
        nxt = next((x for x in self.values if x.start >= v.end), None)
        gap = self.words[v.end : nxt.start] if nxt is not None else []
        return 1 < len(gap) <= 6 and gap[-2:] in (["set", "for"], ["set", "at"])

    def _off_the_plate(self, v: Value) -> bool:
        """Tell whether an amount is how far another is from the plate's: "a pound | short of the plate"."""
        return " ".join(self.words[v.end : v.end + 2]) in word_list("ratings_off_the_plate")

    def _part_of_it(self, v: Value, taken: Taken) -> bool:
        """Tell whether a value is what a part may draw at most: "3.6 of its | 4.1 amps"."""
        if taken.reading.quantity not in {"current", "power", "speed"}:
            return False
        lead = self.words[max(self.first, v.start - 4) : v.start]
        while lead and lead[-1] in {"rated", "possible", "allowed", "maximum", "max", "full"}:
            lead.pop()
        size = (
            2
            if lead[-2:] in (["of", "its"], ["of", "her"], ["of", "their"], ["of", "the"], ["out", "of"])
            else 0
        )
        if not size:
            return False
        stop = v.start - size
        while stop > self.first and self.words[stop - 1] in {"amps", "amp", "a", "watts", "out", "rated"}:
            stop -= 1
        last = next((w for w in self.values if w.end in (stop, v.start - size)), None)
        return last is not None and last.value is not None and 0 < last.value <= 1.3 * v.value

    def _of_the_rated(self, v: Value, taken: Taken) -> bool:
        """Tell whether a value is worked out of what a plate says: "240 volts 1200 watts, that's 48 ohms"."""
        last = self.r.last(before=v.start)
        if last is None or last.sentence != self.number or last.reading.role != "rated":
            return False
        if last.reading.quantity == taken.reading.quantity or v.start - last.end > 6 or taken.label_here:
            return False
        gap = self.words[last.end : v.start]
        text = " ".join(gap).replace(" 's", "'s")
        if gap[:1] == [","] and set(gap) <= {",", "so", "about"} and "so" in gap:
            return taken.reading.quantity == "resistance"  # "240 volt 1000 watts, so 57.6 ohms"
        return any(p in text for p in ("that's", "which is", "so that is", "makes it", "works out")) and set(
            gap
        ) <= word_list("ratings_anew") | {"each", "a", "piece", "makes", "works", "out"}


__all__ = ["Described"]
