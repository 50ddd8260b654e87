"""The words around a value that tell a rating, a setting or a mere description from what was read.

A link of the chain of classes that read one sentence; `ratings.py` asks these questions.
"""

from __future__ import annotations

from dictate.mentions.roles.conditions_told import condition_told
from dictate.mentions.roles.cues import Cue
from dictate.mentions.roles.described import Described
from dictate.mentions.told_outright import tell_role_outright
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import NOMINAL_VOLTS, Taken
from dictate.mentions.word_lists import word_list
from dictate.record.visit import Reading
from dictate.vocabulary.load import table

_CHANGED = 14
"""Words from who changes a time to either end of the change."""


class RatingWords(Described):
    """Questions to the words around one value."""

    def _set_and_not_read(self, v: Value, taken: Taken, role: str) -> bool:
        """Tell whether a control was moved over a value, or a book holds at it: neither was read."""
        if taken.how == "moved" and v.numbers:
            tell_role_outright(self.r.narration, v.numbers[0].start)
            return True
        if role != "measured":
            return False
        if taken.reading.quantity == "duration" and v.change in {
            "from",
            "to",
        }:  # "lengthened it from 20 to 30"
            lead = self.words[max(self.first, v.start - _CHANGED) : v.start]
            return not word_list("times_changed").isdisjoint(lead)
        return taken.reading.quantity == "temperature" and condition_told(self.words, self.first, v.start)

    def _target_in_other_words(self, taken: Taken) -> bool:
        """Tell whether a value only says a target anew: "target is minus 10 evaporating, that's 3.3 bar"."""
        before = self.r.found.readings[-1] if self.r.found.readings else None
        if (
            before is None
            or before.sentence != self.number
            or before.reading.role not in {"target", "expected"}
        ):
            return False
        gap = self.words[before.end : taken.start]
        anew = any(
            p in " ".join(gap) for p in ("that's", "that 's", "that is", "which is", "which 's", "so that")
        )
        return anew and len(gap) <= 7 and set(gap) <= word_list("ratings_anew")

    def _left_at(self, taken: Taken) -> bool:
        """Tell whether a control was left at a value: "I left it at 72 on the stat"."""
        v = taken.value
        before = self.words[max(self.first, v.start - 5) : v.start]
        if taken.reading.quantity != "temperature" or not {"left", "leave", "put", "parked"} & set(before):
            return False
        if not {"at", "on", "to", "left"} & set(before[-2:]):
            return False
        behind = self.words[v.end : min(self.last, v.end + 6)]
        for i, word in enumerate(behind):
            if word in {",", ".", "but", "and"}:
                return False
            if word in {"on", "at"} and word_list("ratings_dials") & set(behind[i + 1 : i + 4]):
                return True
        return False

    def _tolerance_behind(self, v: Value) -> bool:
        """Tell whether a tolerance stands behind a value, as on a marking: "40 plus or minus 6 percent"."""
        behind = self.words[v.end : min(self.last, v.end + 6)]
        if v.word not in {"microfarad", "ohm", "volt", "watt", "k"}:
            return self._pair_of_sizes(v)
        return (
            behind[:3] == ["plus", "or", "minus"]
            or behind[:2] == ["plus", "minus"]
            or behind[:1] == ["\u00b1"]
        ) and bool({"percent", "%"} & set(behind))

    def _pair_of_sizes(self, v: Value) -> bool:
        """Tell whether a tolerance stands behind two sizes of a capacitor: "45 and 5, plus or minus 6"."""
        if v.quantity is not None:
            return False
        behind = self.words[v.end : min(self.last, v.end + 12)]
        at = next((k for k in range(len(behind) - 2) if behind[k : k + 3] == ["plus", "or", "minus"]), None)
        if at is None or not {"percent", "%"} & set(behind[at:]):
            return False
        others = [x for x in self.values if v.end <= x.start < v.end + at]
        led = {"cap", "capacitor", "dual"} & set(self.words[max(self.first, v.start - 6) : v.start])
        joined = {
            w for k, w in enumerate(behind[:at]) if not any(x.start <= v.end + k < x.end for x in others)
        }
        return bool(led) and joined <= {",", "and", "plus", "by", "over", "microfarad", "microfarads"}

    def _then_met(self, v: Value, reading: Reading) -> bool:
        """Tell whether a size is set against what the meter says: "coil is 24 volt and it gets 25.3"."""
        if reading.quantity not in {"capacitance", "voltage"}:
            return False
        if reading.quantity == "voltage" and (v.value not in NOMINAL_VOLTS or self._plural(v)):
            named = any(c.end == v.start - 1 for c in self.components) or self.words[v.start - 2] == "coil"
            if v.value not in NOMINAL_VOLTS or not (named and self.words[v.start - 1] in {"is", "'s"}):
                return False  # "contactor coil is 24 volts, getting 25.1 there"
        nxt = next((x for x in self.values if x.start >= v.end), None)
        if nxt is None or nxt.start - v.end > 6 or not 0.4 <= nxt.value / (v.value or 1) <= 1.6:
            return False
        if nxt.quantity is not None and nxt.word != v.word:
            return False
        gap = self.words[v.end : nxt.start]
        lead = set(self.words[max(self.first, v.start - 3) : v.start])
        if lead & word_list("ratings_met_lead") or "." in gap or not gap:
            return False
        return bool(word_list("ratings_met") & set(gap)) and gap[0] in {",", "and", "but", ";", "it"}

    def _it_acted(self, taken: Taken, cue: Cue | None) -> bool:
        """Tell whether a control was seen to act at a value: "it shut off at 27", "it's cutting in at 40"."""
        v = taken.value
        own = cue is not None and cue.start >= self.first and set(self.words[cue.start : cue.end])
        if cue is not None and not (own and own & word_list("ratings_act_words")):
            return False
        if cue is None and taken.how not in {"setting", "component", "list", "figure", "reset"}:
            return False
        start = max(self.first, v.start - 9)
        front = self.words[start : v.start]
        if not {"at", "on", "off", "in", "out"} & set(front[-2:]):
            return False
        if self._set_otherwise(v):
            return True
        tried = [k for k in range(self.first, v.start) if self.words[k] in word_list("ratings_tried")]
        tried += self._own_clause(v)
        if word_list("roles_settings") & set(self.words[max([self.first, *tried]) : v.start]):
            return False
        if self._stat_cut(v, taken):
            return True
        if {"new", "to"} & set(front[-7:]):
            return False
        acts = [i for i, w in enumerate(front) if w in word_list("ratings_acted")]
        if not acts:
            # "watched it, out at ten, in at twenty-nine"
            seen = [k for k in range(self.first, v.start) if self.words[k] in word_list("ratings_watched_it")]
            return bool(seen) and front[-1:] == ["at"] and self.words[seen[-1] - 1] not in {"be", "to"}
        at = start + acts[-1]
        if self.words[at] in word_list("ratings_acts_now") and not self._seen_to_act(v, at):
            return False
        subject = self.words[max(self.first, at - 4) : at]
        if {"i", "we", "to", "you", "should", "would", "will", "marked", "that"} & set(subject[-2:]):
            return False
        if self.words[at].endswith("ing"):
            return bool({"'s", "is", "was", "it's", "are", "were", "kept", "keeps"} & set(subject[-2:]))
        return True

    def _own_clause(self, v: Value) -> list[int]:
        """Return where the clause of a value begins behind another value: what was set was that one.

        As in "it's set at 28; I blocked the coil and out she went at 27.6".
        """
        ends = [x.end for x in self.values if x.end <= v.start]
        if not ends:
            return []
        gap = range(ends[-1], v.start)
        cuts = [k for k in gap if self.words[k] in {";", "but"}]
        cuts = cuts or [k for k in gap if self.words[k : k + 2] in ([",", "and"], [",", "but"])]
        return cuts[-1:]

    def _on_an_instrument(self, v: Value) -> bool:
        """Tell whether it was read on an instrument what a control does: "on my gauge it closes at 27"."""
        for k in range(v.start - 1, self.first + 1, -1):
            if self.words[k] in word_list("roles_settings"):
                return False
            if self.words[k] in word_list("ratings_instruments") and (
                self.words[k - 1] in {"my", "the", "our"} and self.words[k - 2] in {"on", "by", "per"}
            ):
                return True
        return False

    def _set_otherwise(self, v: Value) -> bool:
        """Tell whether it is said behind a value what its control is set to: "out at 18 when set for 10"."""
        behind = [w for w in self.words[v.end : min(self.last, v.end + 7)] if w != ","]
        if behind[:1] not in (["when"], ["but"], ["though"], ["where"], ["instead"], ["against"], ["and"]):
            return False
        return bool({"set", "setting", "should", "supposed", "dial", "print", "marked"} & set(behind))

    def _stat_cut(self, v: Value, taken: Taken) -> bool:
        """Tell whether a control that is named cut at a value: "stat cut out at 22 and in at 18".

        What a thermostat does now was seen as well ("cold control cuts out at 46 and back in at 52"); what a
        pressure switch does now is more often its setting.
        """
        at = next(
            (
                k
                for k in range(v.start - 1, max(self.first, v.start - 12), -1)
                if self.words[k] in {"cut", "cuts"}
            ),
            None,
        )
        if at is None or at == self.first or self.words[at + 1] not in {"in", "out", "off"}:
            return False
        behind = at + 2 + (self.words[at + 2] in {"again", "back"})
        if self.words[behind] != "at":
            return False
        between = {w for x in self.values if at < x.start < v.start for w in self.words[x.end : v.start]}
        if not between <= {"and", ",", "in", "out", "back", "at", "on", "again", "then", "cut", "cuts"}:
            return False
        named = next((c for c in self.components if c.end == at and c.component.sets), None)
        if self.words[at] == "cut":
            return named is not None
        if taken.reading.quantity != "temperature" or word_list("ratings_told_so") & set(
            self.words[self.first : self.last]
        ):
            return False
        if self._tried_out(v):
            return True
        both = {"in", "out"} <= set(self.words[at : self.last])
        return both and (named is not None or self.words[at - 1] in {"it", "she", ",", "and"})

    def _tried_out(self, v: Value) -> bool:
        """Tell whether a control was tried: "cuts out at 2 with ice on it", "opens at 12, closed again"."""
        behind = self.words[v.end : min(self.last, v.end + 9)]
        if behind[:1] == ["with"]:
            return True
        led = behind[:1] in ([","], ["and"]) and behind[1:2] + behind[2:3]
        turned = {"closed", "opened", "came", "made", "kicked", "back", "reset"} & set(led or [])
        return bool(turned) and bool({"again", "back"} & set(behind[:5]))

    def _seen_to_act(self, v: Value, at: int) -> bool:
        """Tell whether it was watched or is set against what it should be: "I saw it drop out at 0.8"."""
        if self._tried_out(v) or self._on_an_instrument(v):
            return True
        seen = word_list("ratings_watched") & set(self.words[max(self.first, at - 5) : at])
        if seen:
            return True
        behind = self.words[v.end : min(self.last, v.end + 6)]
        return behind[:1] == ["where"] and bool({"wants", "want", "says", "should", "calls"} & set(behind))

    def _reads_other(self, v: Value) -> bool:
        """Tell whether a marking is compared with what was measured.

        As in "40 rated, reads 39.2", "a 5 testing 2.1".
        """
        nxt = next((x for x in self.values if x.start >= v.end), None)
        if nxt is None or nxt.start - v.end > 6 or (nxt.quantity is not None and nxt.word != "microfarad"):
            return False
        gap = self.words[v.end : nxt.start]
        if (
            self.words[v.start - 1] in {"reads", "read", "measured", "measures", "tested", "got"}
            or ";" in gap
        ):
            return False  # "marked 7.5 and read 5.1; new one in, reads 7.6"
        between = any(v.end <= s and e <= nxt.start for s, e in self.items if (s, e) not in self.reads)
        return bool(word_list("readings_reads_other") & set(gap)) and not between and "." not in gap

    def _range_then_reads(self, v: Value) -> bool:
        """Tell whether "88 to 108 reads 94" gives the marking first."""
        group = self._group_of(v)
        end = group[-1].end
        return bool(
            {"reads", "read", "measured", "reading", "tested", "got"} & set(self.words[end : end + 3])
        )

    def _start_range(self, v: Value) -> bool:
        """Tell whether a range is one that start capacitors are made in: "an 88 to 108" (EIA-463 sizes)."""
        group = self._group_of(v)
        low, high = group[0].value, group[-1].value
        return [low, high] in table("plausible")["start_capacitors"]["ranges"]

    def _singular(self, v: Value) -> bool:
        """Tell whether the unit was said in the singular after more than one: "a 440 volt cap", "30 amp"."""
        if self.words[v.end - 1] == "volt" and v.value not in NOMINAL_VOLTS:
            return False
        return (
            self.words[v.end - 1] in {"volt", "amp", "watt", "microfarad"}
            and v.value > 1
            and self.words[v.end : v.end + 1] not in (["drop"], ["draw"], ["difference"])
        )

    def _of_a_leg(self, v: Value) -> bool:
        """Tell whether a value with a fraction stands right behind a phase: "red phase 7.2 amp"."""
        lead = self.words[max(self.first, v.start - 2) : v.start]
        named = lead[-1:] and lead[-1] in {"phase", "leg", "line", "red", "yellow", "blue", "pole"}
        return bool(named) and not float(v.value).is_integer()

    def _measured_talk(self, v: Value) -> bool:
        before = set(self.words[max(self.first, v.start - 4) : v.start])
        return bool(word_list("readings_measured_talk") & before)

    def _part_talk(self, v: Value) -> bool:
        """Tell whether a value stands in the description of a new part: "new motor, 1075 rpm, 2.8 amps"."""
        start = max(self.first, v.start - 24)
        words = self.words[start : v.start]
        described = word_list("readings_part_talk_3") & set(words + self.words[v.end - 1 : v.end + 6])
        new = word_list("readings_part_talk_2") & set(words)
        gap = words[-1:] in ([","], ["at"], ["a"], ["and"])
        if v.word == "rpm" and words[-1:] in (["is"], ["'s"]):
            gap = v.value in table("plausible")["sizes"]["speed"]
        return bool(described and new and gap) and not word_list("readings_part_talk") & set(words)

    def _plural(self, v: Value) -> bool:
        return self.words[v.end - 1].endswith("s") and self.words[v.end - 1] not in {"hz"}
