"""Bare numbers that a control is set to or acts at, told as a list of its figures."""

from __future__ import annotations

from dictate.mentions.quantities import FILLERS
from dictate.mentions.roles.compared import Compared
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import Link, Taken
from dictate.mentions.word_lists import phrase_at, word_list

_REACH = 45
"""Tokens behind a control in which its figures are told."""
_ACTS_WITHIN = 40
"""Tokens behind the figures of a control in which it is told at what it acts."""
_HARDLY_WARM = frozenset(("box", "degrees", "defrost"))
"""What is told of a machine anyway, whatever its control acts on."""
_SMALL = frozenset((",", "and", "back", "at", "again", "then", "it", "'s", "cut", "cuts", "comes"))
_LOW, _HIGH = "low pressure switch", "high pressure switch"


class Settings(Compared):
    """Tells the figures of a control: "low cut out 10, differential 20, high 400"."""

    def _figure(self, v: Value) -> Link | None:
        """Take a bare number as a figure of the control that is spoken of."""
        if v.clock or not v.numbers or v.value < 0 or v.range:
            return None
        return (
            self._on_and_off(v)
            or self._terminates(v)
            or self._reset_to(v)
            or self._of_control(v)
            or self._acted(v)
            or self._other_way(v)
            or self._of_a_header(v)
        )

    def _of_a_header(self, v: Value) -> Link | None:
        """Read "suction header was 39 pounds and it's set to run at | 32" as the pressure of a rack."""
        last = self.r.last("pressure", before=v.start, within=14)
        if last is None or last.sentence != self.number or not last.reading.value or last.how == "figure":
            return None
        if not 0.4 <= v.value / last.reading.value <= 2.5:
            return None
        said = self.words[max(self.first, last.start - 6) : v.start]
        between = self.words[last.end : v.start]
        if word_list("settings_headers").isdisjoint(said) or word_list("settings_headers_set").isdisjoint(
            between
        ):
            return None
        if any(phrase_at("settings_of_warmth", between, i) for i in range(len(between))):
            return None
        sets = word_list("settings_headers_set")
        near = [x for x in self.labels if last.end <= x.start < v.start and self.words[x.start] not in sets]
        if any(x.label.default == "temperature" for x in near):
            return None
        link = self._like(v, last)
        if link is not None:
            link.how = "setting"
        return link

    def _named_by(self, v: Value) -> list[str]:
        """Return the words in front of a value that name it, less "at", "is", "set to" and the like."""
        lead = [w for w in self.words[max(self.first, v.start - 7) : v.start] if w not in FILLERS]
        while lead and lead[-1] in word_list("settings_between"):
            lead.pop()
        return lead

    def _on_and_off(self, v: Value) -> Link | None:
        """Read "eleven minutes on, six off" as two times of the same cycle."""
        behind = self.words[v.end : v.end + 1]
        if behind not in (["on"], ["off"]) or not 0 < v.value <= 120:
            return None
        for w in self.values:
            other = self.words[w.end : w.end + 1]
            near = abs(w.start - v.end) <= 5 or abs(v.start - w.end) <= 5
            timed = w is not v and near and w.word in {"minute", "second"}
            if timed and other in (["on"], ["off"]) and other != behind:
                unit = "min" if w.word == "minute" else "s"
                return Link("duration", unit, v.value, unit_said=False, explicit=True, how="cycle")
        return None

    def _terminates(self, v: Value) -> Link | None:
        """Read "fail-safe 30, terminates at 50": a defrost ends at a temperature, its fail-safe is a time."""
        lead = self._named_by(v)
        if not lead or lead[-1] not in word_list("settings_termination"):
            return None
        if self.words[v.start - 1] in {"in", "after"} or not self.r.system.fits_temperature(v.value):
            return None
        if not 2 <= v.value <= 90 or lead[-1].endswith("ed"):
            return None
        link = self._assume(v, "temperature", None, "setting")
        if link is not None:
            link.component = "defrost termination switch"
        return link

    def _of_control(self, v: Value) -> Link | None:
        lead = self._named_by(v)
        tail = next((n for n in (3, 2, 1) if " ".join(lead[-n:]) in word_list("settings_names")), 0)
        if not tail:
            return None
        named = " ".join(lead[-tail:])
        actor = lead[:-tail][-1:]
        if actor and actor[0] in word_list("settings_actors") and self.words[v.start - 1] == "at":
            return None  # "it cut out at 12" was seen
        if named in word_list("settings_sides") and not self._figures_said():
            return None
        kind = self._kind_of_control(v.start - 1)
        if kind is None and named in word_list("settings_cuts"):
            return self._cut_beside(v)
        if kind is None or (kind == "temperature" and not self.r.system.fits_temperature(v.value)):
            return None
        if kind == "temperature" and named in word_list("settings_cuts"):
            return self._assume(v, kind, None, "figure")
        if kind == "temperature":
            if named not in {"differential", "diff"} or not 0 < v.value <= 20:
                return None  # what thermostats are set to is told elsewhere
            return self._assume(v, "temperature_difference", None, "figure")
        if not 0.1 <= v.value <= 700:
            return None
        link = self._assume(v, kind, None, "figure")
        if link is not None:
            if "high" in named or (v.value >= 150 and self._figures_said() and "head" not in lead):
                link.component = _HIGH if "high" in named else None
            elif "low" in named or word_list("settings_low_side") & set(self.words[self.first : v.start]):
                link.component = _LOW
            link.point = None
        return link

    def _cut_beside(self, v: Value) -> Link | None:
        """Read "suction 30, cut in's at | 45" as of the kind told before it; no control was named."""
        last = next(
            (
                t
                for t in reversed(self.r.found.readings)
                if t.start < v.start and t.reading.quantity in {"pressure", "temperature"} and t.reading.value
            ),
            None,
        )
        if last is None or v.start - last.end > _REACH or self.number - last.sentence > 1:
            return None
        link = self._like(v, last)
        if link is None:
            return None
        link.how, link.point, link.component, link.rated = "figure", None, None, False
        link.reasons.append(f"what is cut in and out was not said: taken as a {last.reading.quantity}")
        return link

    def _acted(self, v: Value) -> Link | None:
        """Read "opened at one, didn't close till twenty-two" as where the control just told of acts."""
        front = self.words[max(self.first, v.start - 4) : v.start]
        if front[-1:] not in (["at"], ["till"], ["until"]) or word_list("settings_acts").isdisjoint(front):
            return None
        last = self.r.last("pressure", before=v.start, within=_ACTS_WITHIN)
        if last is None or last.how not in {"setting", "figure", "reset", "acted"}:
            return None
        act = next(i for i in range(v.start - 1, 0, -1) if self.words[i] in word_list("settings_acts"))
        allowed = word_list("settings_actors_of_act") | ({"and"} if last.how == "acted" else set())
        if self.words[act - 1] not in allowed:
            return None  # "the shop opened at ten"
        link = self._like(v, last)
        if link is not None:
            link.how, link.component = "acted", last.reading.component
        return link

    def _other_way(self, v: Value) -> Link | None:
        """Read "cutting out at forty and in at | one-forty" as where the same control acts the other way."""
        last = self.r.found.readings[-1] if self.r.found.readings else None
        if last is None or last.sentence != self.number or last.how not in {"setting", "figure"}:
            return None
        if last.reading.role == "measured":
            return None  # "it's cutting in at 41 and out at 35 by my thermometer": both were seen
        between = [w for w in self.words[last.end : v.start] if w not in _SMALL]
        opposite = {"in": "out", "out": "in"}.get(between[0]) if len(between) == 1 else None
        if opposite is None or opposite not in self.words[max(self.first, last.start - 4) : last.start]:
            return None
        link = self._like(v, last)
        if link is not None:
            link.how, link.component = "figure", last.reading.component
        return link

    def _figures_said(self) -> bool:
        """Tell whether the sentence tells figures of a control: a cut-out, a cut-in, a differential."""
        words = self.words[self.first : self.last]
        return any(phrase_at("settings_figures", words, i) for i in range(len(words)))

    def _kind_of_control(self, at: int) -> str | None:
        """Return what the control named last acts on."""
        words = self.words[self.first : self.last]
        # "Its cut in is at fifteen, differential ten": as on the control of the machine before
        listed = "differential" in words and any(
            phrase_at("settings_cuts", words, i) for i in range(len(words))
        )
        for i in range(at, -1 if listed else max(-1, at - _REACH), -1):
            if phrase_at("settings_of_pressure", self.words, i):
                return "pressure"
            weak = listed and i < self.first and self.words[i] in _HARDLY_WARM
            if not weak and phrase_at("settings_of_warmth", self.words, i):
                return "temperature"
        return None

    def _reset_to(self, v: Value) -> Link | None:
        """Read "I reset them to 10 and 30" as what the figures told just before were set to."""
        before = self._figure_before(v)
        if before is None:
            return None
        front = self.words[max(self.first, v.start - 5) : v.start]
        second = before.sentence == self.number and self.words[before.end : v.start] in (
            ["and"], [","], [",", "and"], ["and", "in", "at"], ["and", "in"], ["and", "out", "at"],
        )  # fmt: skip
        moved = front[-1:] in (["to"], ["at"]) and word_list("settings_resets") & set(front)
        again = second and before.how == "reset"
        if not moved and not again:
            return None
        link = self._like(v, before)
        if link is None:
            return None
        link.how = "reset"
        link.carried = before
        return link

    def _figure_before(self, v: Value) -> Taken | None:
        last = self.r.last("pressure", before=v.start, within=30)
        if last is None or last.how not in {"setting", "figure", "reset"} or self.number - last.sentence > 1:
            return None
        return last
