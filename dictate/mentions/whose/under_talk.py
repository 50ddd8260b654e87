"""Which part a value is of that names none: the one under talk, as far as such a part can have the value.

A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

from dictate.mentions.labels import ComponentAt
from dictate.mentions.labels.switched import only_switched
from dictate.mentions.plausible import usual
from dictate.mentions.values import Value
from dictate.mentions.whose.banks_and_rows import BanksAndRows
from dictate.mentions.whose.taken import ELECTRICAL, MOTORS, SMALL, SWITCHGEAR, Link, Taken, Zone
from dictate.mentions.word_lists import phrase_at, word_list

_LEAST_OF_A_FAN = 1.5  # ohms from common to run


class UnderTalk(BanksAndRows):
    """Which part a value is of that names none."""

    def _context_component(self, v: Value, zone: Zone, link: Link) -> None:
        quantity = link.quantity
        if quantity not in ELECTRICAL:
            return
        supply = quantity == "voltage" and link.amount >= 60 and self._supply_talk(zone)
        if supply and not self._pts(zone, quantity):
            return
        word = self._by_a_word_of_it(v, link)
        if word is not None:
            link.component = word or None
            return
        owner = self._its_owner(v, link)
        if owner is not None:
            link.component, link.which = owner.name, link.which or owner.which
            return
        relay = self._relay_pins(v, link)
        if relay is not None:
            link.component = relay
            return
        if quantity == "current" and link.point == "common":
            link.component = self._motor(v)
            return
        if link.point in {"line", "load", "line-load"}:
            link.component = self._switchgear(v)
            return
        if quantity == "resistance" and link.point and ("-" in link.point and link.point[0] in "crsL"):
            link.component = self._motor(v)
            return
        if link.point in {"primary", "secondary"}:
            link.component = "transformer"
            return
        bad = self._of_the_new_one(v, link) if quantity == "resistance" else None
        if bad is None and quantity == "resistance" and "good" in self.words[max(0, v.start - 6) : v.start]:
            bad = self._bad_one(v) if self._grounded_words(v) else None
        if bad is not None:
            link.component = bad
            return
        if quantity == "resistance" and (v.state == "open" or link.amount >= 100_000):
            pins = self._of_the_pins(v)
            if pins is not None:
                link.component = pins.reading.component
                link.point = link.point or ("ground" if v.state == "open" else None)
                return
        if quantity == "resistance" and v.ground:
            last = self.r.last("resistance", before=v.start, within=60)
            if last is not None and last.reading.component and self.number - last.sentence <= 1:
                link.component = last.reading.component
                return
        wound = link.label is not None and link.label.mode == "winding" and link.label.quantity is None
        if quantity == "resistance" and link.amount >= 100_000 and not wound:
            # "Element B 55.2 ohms, insulation over 200 meg": the insulation of what was just measured
            last = self.r.last("resistance", before=v.start, within=30)
            since = self.r.component_before(v.start, quantity, 30)
            named_since = last is not None and since is not None and since.start > last.end
            if (
                last is not None
                and not named_since
                and last.reading.component
                in MOTORS | word_list("places_heaters") | word_list("places_valves")
            ):
                link.component, link.which = last.reading.component, link.which or last.reading.which
                return
        if quantity == "resistance" and (wound or link.amount >= 100_000):
            heated = self.r.component_before(v.start, quantity, 40)
            if heated is not None and heated.name in word_list("places_heaters") and link.amount < 100_000:
                link.component, link.which = heated.name, link.which or heated.which
                return
            named = any(c.name in {"compressor", "motor"} for c in self.r.components)
            link.component = self._motor(v, "compressor" if named else None)
            return
        if quantity == "voltage" and link.amount == 0 and link.point is None:
            isolated, switch = self._proved_dead(v)
            if isolated:
                link.component = switch
                return
        if quantity == "voltage" and link.amount < 60 and v.state != "open":
            emptied = self._emptied(v)
            if emptied is not None:
                link.component = emptied
                return
        if quantity == "current" and self._of_a_section(zone, v):
            link.component = "compressor"
            return
        numbered = self._numbered(zone, v)
        if numbered is not None and quantity in numbered.component.measures:
            link.component, link.which = numbered.name, link.which or numbered.which
            return
        if quantity == "resistance" and link.point in {"run", "start"}:
            link.component = self._motor(v)
            return
        once = self._once_more(v, link)
        if once is not None:
            link.component, link.which = once.reading.component, link.which or once.reading.which
            return
        c = self._able(v, quantity, link)
        if quantity == "current":
            defrosted = self._of_the_defrost(v, link, c)
            if defrosted is not None:
                link.component = defrosted
                return
            if self._of_the_machine(v, zone, link, c):
                link.component = "compressor"
                return
            c = self._drawing(v, c)
            if c is None:
                link.component = self._compressor_talk(v)
                return
        strong = link.label_at is not None and link.label_at.label.quantity == "voltage" and not link.derived
        ends = word_list("under_talk_ends") & set(self.words[max(zone.pre[0], v.start - 9) : v.start])
        if ends and c is not None and v.start - c.end <= 30:
            strong = False  # "Three heaters. Voltage at the terminals is there, 231"
        if quantity == "voltage" and strong and c is not None and c.start < self.first:
            return  # "Voltage 483, 480, 485" is the supply, whatever was talked about before
        if c is None:
            if quantity == "capacitance":
                link.component = "run capacitor"
            return
        link.component = c.name
        link.which = link.which or c.which

    def _once_more(self, v: Value, link: Link) -> Taken | None:
        """Return the value that is read again: "Power back on. Fourteen point two amps this time".

        Also the one that came down to this: "kicked up to fourteen amps and settled at two nine".
        """
        said = self.words[self.first : self.last]
        if link.quantity == "current" and word_list("under_talk_settled") & set(said):
            last = self.r.last("current", before=v.start, within=14)
            if last is not None and last.sentence == self.number:
                gap = set(self.words[last.end : v.start])
                named = any(last.end <= c.start < v.start for c in self.components)
                if word_list("under_talk_settled") & gap and not named:
                    return last
        if "time" not in said:
            return None
        near = (*range(max(self.first, v.start - 4), v.start), *range(v.end, min(self.last, v.end + 5)))
        if not any(phrase_at("under_talk_once_more", self.words, k) for k in near):
            return None
        last = self.r.last(link.quantity, before=v.start)
        return last if last is not None and last.reading.component else None

    def _its_owner(self, v: Value, link: Link) -> ComponentAt | None:
        """Return the part that "its" looks back to, or whose one winding is told: "Its winding is 42 ohms".

        That is what the sentence before is about, its first part that can have the value, in front of others.
        """
        lead = self.words[self.first : v.start]
        at = lead.index("its") + 1 if "its" in lead[:8] else 0
        its = bool(at) and bool(word_list("under_talk_its") & set(lead[at : at + 2]))
        alone = lead[:1] in (["winding"], ["winding's"]) or lead[:2] in (
            ["the", "winding"],
            ["winding", "'s"],
        )
        if not its and not (alone and link.quantity == "resistance"):
            return None
        begin = self.r.narration.sentences[self.number - 1][0] if self.number else self.first
        named = [
            c
            for c in self.r.components
            if begin <= c.start < v.start and not c.backdrop and not c.whose and c.name != "motor"
        ]
        able = [c for c in named if link.quantity in c.component.measures and c.name not in SWITCHGEAR]
        if alone:
            able = [c for c in able if c.name in MOTORS or "coil" in c.name or c.name.endswith("valve")]
        if able and named[0] is not able[0] and its:
            return None  # "The relay clicks. Its contacts": what is measured there is none of a motor's
        return able[-1 if alone else 0] if able else None

    def _of_a_section(self, zone: Zone, v: Value) -> bool:
        """Tell whether amps are of a stage or circuit, that is of its compressor: "circuit one pulls 22"."""
        begin = max(zone.pre[0], v.start - 9)
        for i in range(begin, v.start):
            if self.words[i] not in word_list("places_sections"):
                continue
            named = self.words[i - 1] in word_list("places_section_names") and i > begin - 1
            numbered = self.words[i + 1] in word_list("places_section_numbers")
            if self.words[i] == "side" and not (named and self.words[i - 1] in {"lead", "lag"}):
                continue
            if not (named or numbered):
                continue
            near = set(self.words[max(0, v.start - 20) : min(self.last, v.end + 6)])
            if near & word_list("places_heat_talk"):
                return False
            return any(c.name == "compressor" for c in self.r.components) or self.words[i] == "circuit"
        return False

    def _proved_dead(self, v: Value) -> tuple[bool, str | None]:
        """Tell whether no voltage is what a machine was proved dead by, and at which switch."""
        if not word_list("places_dead_talk") & set(self.words[max(self.first, v.start - 8) : v.end + 6]):
            return False, None
        if word_list("places_dead_parts") & set(self.words[max(self.first, v.start - 8) : v.end + 6]):
            return False, None
        begin = max(0, v.start - 30)
        cut = [k for k in range(begin, v.start) if phrase_at("places_cut_off", self.words, k)]
        if not cut or any(c.start > cut[-1] and c.name not in SWITCHGEAR for c in self._named_until(v)):
            return False, None
        for c in reversed(self.r.components):
            if c.start < v.start and v.start - c.end <= 40 and c.name in word_list("places_off_switches"):
                return True, c.name
        return True, None

    def _named_until(self, v: Value) -> list[ComponentAt]:
        return [c for c in self.r.components if v.start - 40 < c.start < v.start]

    def _emptied(self, v: Value) -> str | None:
        """Return the capacitor that volts left on it were read of: "bled the caps, 2 volts and falling"."""
        near = self.words[max(0, v.start - 16) : min(self.last, v.end + 8)]
        if not word_list("places_bleeding") & set(near):
            return None
        for c in reversed(self.r.components):
            if c.start < v.start + 8 and c.name.endswith("capacitor"):
                return c.name if v.start - c.end <= 20 else None
        return None

    def _emptied_last(self, v: Value, link: Link, named: ComponentAt) -> bool:
        """Tell whether volts are left on a capacitor that was named behind another part of the sentence."""
        if link.quantity != "voltage" or link.amount >= 60 or named.start > v.start or v.state == "open":
            return False
        return self._emptied(v) is not None and any(
            named.end <= c.start < v.start and c.name.endswith("capacitor") for c in self.components
        )

    def _able(self, v: Value, quantity: str, link: Link) -> ComponentAt | None:
        """Return the component under talk that can have this value: a coil when a coil is said."""
        c = self.r.component_before(v.start, quantity, likely=lambda x: self._can_have(x, link, v))
        if quantity == "current" and self._said_alone(v, "coil"):
            # "Clutch is in. New coil pulls 3.8 amps": a coil is of a part that has one
            wound = self.r.component_before(v.start, quantity, 120, word_list("places_coils"))
            c = wound if wound is not None else c
        if c is None and quantity == "current" and self._told(link):
            # "Currents 20.8, 20.6, 20.9" long after a heater: none that was named last can have them
            motors = word_list("readings_motors")
            c = self.r.component_before(
                v.start, quantity, 2000, motors, likely=lambda x: self._can_have(x, link, v)
            )
        if quantity not in {"resistance", "voltage"} or c is None:
            return c
        kinds: list[str] = []
        if self._said_alone(v, "valve"):
            kinds = ["valves"]
        elif self._said_alone(v, "coil"):
            kinds = ["coils"]
        elif quantity == "resistance" and v.state == "value" and link.amount >= 1000:
            kinds = ["kilohms", "coils"]
        elif quantity == "resistance" and (
            link.amount < 90 if v.state == "value" else self._grounded_words(v)
        ):
            row = self.r.last("resistance", before=v.start, within=40)
            if row is not None and (row.reading.value or 0) >= 1000 and row.reading.component == c.name:
                return c  # "the other sensor forty one point two": thousands go without saying
            kinds = ["ohms", "coils"]
        elif quantity == "voltage" and 18 <= link.amount <= 30 and c.name in word_list("places_no_control"):
            kinds = ["coils", "control"]  # a control circuit's volts are on no plug of the mains
        if not kinds:
            return c
        able = frozenset().union(*(word_list(f"places_{kind}") for kind in kinds))
        alone = kinds == ["coils"] and quantity == "resistance"
        other = self.r.component_before(v.start, quantity, 250 if alone else 120, able)
        if other is None and "coils" in kinds and self._said_alone(v, "coil") and c.name not in able:
            # "24 volts at the coil, contactor humming": the part with the coil is named behind
            other = next(
                (x for x in self.r.components if 0 <= x.start - v.end <= 20 and x.name in able), None
            )
        return other if other is not None else c

    @staticmethod
    def _told(link: Link) -> bool:
        """Tell whether the words say what kind of quantity a value is."""
        return (
            link.unit_said
            or link.point in {"L1", "L2", "L3"}
            or (link.label_at is not None and not link.label_at.label.weak)
        )

    def _can_have(self, c: ComponentAt, link: Link, v: Value) -> bool:
        """Tell whether a component that was only spoken of before can have this value."""
        if link.quantity == "voltage" and link.amount and c.name in word_list("places_off_switches"):
            return not only_switched(self.words, c.start, c.end)  # "Threw the disconnect. 239 in"
        if v.state != "value" or link.quantity != "current" or not self._told(link):
            return True  # a bare number that is unusual for it may be of another kind
        return usual(link.quantity, c.name, None, link.amount, link.unit)

    def _grounded_words(self, v: Value) -> bool:
        """Tell whether an open circuit was looked for to ground: a winding, not a sensor."""
        near = (
            self.words[max(self.first, v.start - 5) : v.start] + self.words[v.end : min(self.last, v.end + 4)]
        )
        return bool({"earth", "ground", "shell", "frame", "case", "casing"} & set(near))

    def _said_alone(self, v: Value, word: str) -> bool:
        """Tell whether plain "coil" or "valve" is what a value is of: "coil itself is fine, eleven ohms"."""
        begin = max([self.first, v.start - 9, *(x.end for x in self.values if x.end <= v.start)])
        near = self.words[begin : v.start] + self.words[v.end : min(self.last, v.end + 4)]
        return bool({word, f"{word}'s"} & set(near))

    def _drawing(self, v: Value, c: ComponentAt | None) -> ComponentAt | None:
        """Return what draws a current: no switch does, and no valve coil draws more than two amps."""
        coil = c is not None and c.start < self.first and (c.name.endswith("valve") or "coil" in c.name)
        if c is None or c.name in SWITCHGEAR:
            return None
        if not coil or v.value <= 2:
            return c
        for x in reversed(self.r.components):
            if x.start >= c.start or "current" not in x.component.measures:
                continue
            if v.start - x.end > 250:
                break
            if x.component.bare == "current" and x.name != "motor":
                return x
        return None

    def _compressor_talk(self, v: Value) -> str | None:
        """Return the compressor for amps of a start or of the running machine."""
        near = set(self.words[max(0, v.start - 25) : v.end + 8])
        plates = {"plate", "nameplate", "rated", "tag", "mca", "label"}
        if plates & set(self.words[max(0, v.start - 8) : v.end + 4]):
            return None
        if near & word_list("places_compressor_talk"):
            return "compressor"
        begin = max(0, v.start - 16)
        started = any(phrase_at("readings_power_on", self.words, k) for k in range(begin, v.start))
        return "compressor" if started else None

    def _numbered(self, zone: Zone, v: Value) -> ComponentAt | None:
        """Return the component that only its number tells: "amps on 4 were 18.2" after "compressor 4"."""
        for i in range(max(zone.pre[0], v.start - 6), v.start - 1):
            if self.words[i] not in {"on", "number"}:
                continue
            said = SMALL.get(self.words[i + 1], self.words[i + 1])
            for c in reversed(self.r.components):
                if c.start < v.start and c.which == said and v.start - c.end <= 150:
                    return c
        return None

    def _supply_talk(self, zone: Zone) -> bool:
        near = set(self.words[zone.pre[0] : zone.post[1]])
        return bool({"incoming", "supply", "mains", "service"} & near)

    def _switchgear(self, v: Value) -> str | None:
        end = self._group_of(v)[-1].end
        for c in self.components:
            led = self.words[max(0, c.start - 5) : c.start]
            if 0 <= c.start - end <= 8 and led[-5:] == ["in", "and", "out", "of", "the"]:
                return c.name
        worked: str | None = None
        for c in reversed(self.r.components):
            if c.start >= v.start or c.name not in SWITCHGEAR or "voltage" not in c.component.measures:
                continue
            if v.start - c.end > 120 and worked is not None:
                break
            off = c.name in word_list("places_off_switches") and only_switched(self.words, c.start, c.end)
            off = off or (c.name == "fuse" and "good" in self.words[c.end : c.end + 8])
            if not off:
                return c.name
            worked = worked or c.name  # "Breaker back on. 208 in, 208 out" of the new contactor
        return worked

    def _motor(self, v: Value, default: str | None = "compressor") -> str | None:
        """Return the motor whose windings are under test: the last one named, a compressor before a fan."""
        last = self.r.last("resistance", before=v.start, within=40)
        going = last is not None and self.number - last.sentence <= 2 and last.reading.component in MOTORS
        near: ComponentAt | None = None
        for c in reversed(self.r.components):
            if c.start >= v.start or (c.name not in MOTORS and c.name != "motor"):
                continue
            if c.name == "motor":
                if near is None and not going and v.start - c.end < 60 and self._opens(c):
                    return self._which_motor(v, c.start)
                continue
            if going and last is not None and c.start < last.start:
                return last.reading.component  # the windings of one motor go on
            if c.name == "compressor" and v.start - c.end < 90:
                return c.name
            if near is None and v.start - c.end < 30 and not self._too_low_for_a_fan(v, c):
                if self._heads(c):
                    return c.name
                near = c
        if going and last is not None:
            return last.reading.component
        if near is not None:
            return near.name
        # "Windings, left 61 ohms" where only the fans were spoken of
        return self._only_motor(v.start) or default

    def _too_low_for_a_fan(self, v: Value, c: ComponentAt) -> bool:
        """Tell whether windings are a compressor's by their ohms: a fan named in a sentence before has more.

        Fans of fractional horsepower read some ohms to some hundred, hermetic compressors tenths to a few
        (common practice).
        """
        if v.state != "value" or v.ground or not 0 < v.value < _LEAST_OF_A_FAN or c.start >= self.first:
            return False
        return c.name.endswith("fan motor")

    def _heads(self, c: ComponentAt) -> bool:
        """Tell whether a component heads what follows: "Fan motor: ...", "Fan motor by itself, ..."."""
        opens = c.start == 0 or self.words[c.start - 1] in {".", "?", "!", ";", "the", "and", "then", ","}
        read = any(
            t.reading.component == c.name and t.start >= c.start and t.reading.quantity != "resistance"
            for t in self.r.found.readings[-4:]
        )
        after = self.words[c.end : c.end + 1]
        return opens and not read and after in ([":"], ["windings"], ["winding"], ["ohms"], ["next"], [","])

    def _opens(self, c: ComponentAt) -> bool:
        """Tell whether a sentence is about a part: "Motor was seized solid", "The motor's shot"."""
        at = c.start - (self.words[c.start - 1 : c.start] == ["the"])
        return at == 0 or self.words[at - 1] in {".", "?", "!", ";"}

    def _which_motor(self, v: Value, before: int | None = None) -> str:
        """Return the motor that plain "motor" means: the last one named."""
        until = v.start if before is None else before
        for c in reversed(self.r.components):
            near = c.start < until and v.start - c.end <= 120 and not c.backdrop
            if near and c.name != "motor" and (c.name in MOTORS or c.name in word_list("places_motored")):
                return c.name
        return self._only_motor(10**9) or "motor"

    def _only_motor(self, until: int) -> str | None:
        """Return the one kind of motor that was spoken of before a token; None when there are others."""
        known = {c.name for c in self.r.components if c.start < until and c.name in MOTORS}
        if len(known) != 1:
            return None
        for c in self.r.components:
            led = self.words[c.start - 1] if c.start else "."
            if c.name == "motor" and led.isalpha() and led not in word_list("places_any_motor"):
                return None  # "the standby motor" is another one
        return known.pop()
