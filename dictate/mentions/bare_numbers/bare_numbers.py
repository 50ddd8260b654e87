"""What a number without a unit is a value of.

A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

from enum import Enum
from typing import Final, Literal

from dictate.mentions.bare_numbers.air_statics import AirStatics
from dictate.mentions.bare_numbers.circuits_told import CircuitsTold
from dictate.mentions.bare_numbers.come_to_rest import ComeToRest
from dictate.mentions.bare_numbers.drops_again import DropsAgain
from dictate.mentions.bare_numbers.electric_talk import ElectricTalk
from dictate.mentions.bare_numbers.frames import Frames
from dictate.mentions.bare_numbers.in_a_test import InATest
from dictate.mentions.bare_numbers.label_reach import LabelReach
from dictate.mentions.bare_numbers.named_again import NamedAgain
from dictate.mentions.bare_numbers.on_a_megger import OnAMegger
from dictate.mentions.bare_numbers.one_of_many import OneOfMany
from dictate.mentions.bare_numbers.pressures_told import PressuresTold
from dictate.mentions.bare_numbers.rows_headed import RowsHeaded
from dictate.mentions.bare_numbers.rows_of_kinds import RowsOfKinds
from dictate.mentions.bare_numbers.saturations import Saturations
from dictate.mentions.bare_numbers.settings_moved import SettingsMoved
from dictate.mentions.bare_numbers.shown_again import ShownAgain
from dictate.mentions.bare_numbers.sides_told import SidesTold
from dictate.mentions.bare_numbers.speeds_told import SpeedsTold
from dictate.mentions.bare_numbers.told_times import ToldTimes
from dictate.mentions.bare_numbers.warmth_talk import WarmthTalk
from dictate.mentions.bare_numbers.winding_list import WindingList
from dictate.mentions.bare_numbers.with_power_off import WithPowerOff
from dictate.mentions.labels import LabelAt
from dictate.mentions.plausible import fits
from dictate.mentions.told_outright import tell_outright
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import CLOCKED, ELECTRICAL, NOMINAL_VOLTS, Link, Taken, Zone, mains


class Undecided(Enum):
    """What a look returns that could not tell; None says that the number is no value."""

    OPEN = "open"


OPEN: Final = Undecided.OPEN
Open = Literal[Undecided.OPEN]


class BareNumbers(
    InATest,
    ElectricTalk,
    WarmthTalk,
    SettingsMoved,
    WindingList,
    WithPowerOff,
    ToldTimes,
    SidesTold,
    SpeedsTold,
    CircuitsTold,
    OneOfMany,
    ComeToRest,
    DropsAgain,
    RowsHeaded,
    RowsOfKinds,
    Frames,
    PressuresTold,
    ShownAgain,
    NamedAgain,
    OnAMegger,
    Saturations,
    AirStatics,
    LabelReach,
):
    """What a number without a unit is a value of."""

    def _bare(self, v: Value, group: list[Value], zone: Zone, previous: Taken | None) -> Link | None:
        """Return what a number is a value of, by the first of the looks that can tell; None for no value."""
        costs = self._labels(zone, v)
        answer = self._by_what_is_beside(v, group, zone, previous, costs)
        if answer is not OPEN:
            return answer
        best = self._best_label(v, costs)
        framed = self._framed_volts(v, best)
        if framed is not None:
            return framed
        best = self._drawn(v, costs, best) or best
        if best is not None and self._takes_amps(v, best[1]):
            return self._assume(v, "current", None, "component")
        last = self.r.last(before=v.start, within=60)
        point = self._bare_point(v, zone)
        answer = self._by_another_matter(v, group, best, last, point)
        if answer is not OPEN:
            return answer
        component = self._bare_component(v, zone)
        if best is not None:
            return self._by_its_label(v, zone, best, last, point, component)
        if point is not None:
            return self._assume(v, point, None, "point")
        if component is not None:
            return self._assume(v, self._parallel(v) or component[0], None)
        return self._by_talk(v, group, zone, last)

    def _by_what_is_beside(
        self,
        v: Value,
        group: list[Value],
        zone: Zone,
        previous: Taken | None,
        costs: list[tuple[float, LabelAt]],
    ) -> Link | Open | None:
        """Look at the words right beside a number, at the list it stands in and at a test under way."""
        aloud = self._read_aloud(v)
        if aloud is not None:
            return aloud
        if self._minutes_of_the_hour(v):
            return None
        printed = self._printed(v)
        if printed is not None:
            return self._assume(v, "capacitance" if printed == "size" else "voltage", None, "printed")
        kilohms = self._in_kilohms(v)
        if kilohms is not None:
            return kilohms
        if self._of_phases(v):
            return self._assume(v, "voltage", None, "marking")
        if self._timer_set(v):
            return Link("duration", "min", v.value, None, None, unit_said=False, explicit=True, how="setting")
        framed = (
            self._of_a_chain(v)
            or self._ohms_while_off(v)
            or self._one_of_many(v)
            or self._on_a_megger(v)
            or self._framed(v)
            or self._row_once_more(v, group)
            or self._row_nought(v)
            or self._saturated(v)
            or self._air_static(v)
            or self._setting_moved(v)
            or self._later_minutes(v)
            or self._left_standing(v)
            or self._told_in_time(v, costs)
            or self._side_is(v)
            or self._other_pressure_side(v)
            or self._defrost_ended(v)
            or self._cycled_at(v)
            or self._sensor_row(v)
            or self._headed_amps(v)
            or self._pressure_told(v)
            or self._shown_again(v)
            or self._told_by_name(v)
            or self._turning_at(v)
            or self._comes_to_rest(v)
            or self._of_next_circuit(v)
            or self._lost_again(v, group)
            or self._on_volts(v)
            or self._warmth_shown(v)
            or self._pulled_through(v)
            or self._placed_in_list(v, group)
            or self._vehicle_volts(v)
            or self._megohms_go_on(v)
        )
        if framed is not None:
            return framed
        figure = self._figure(v) or self._single_winding(v) or self._net_pressure(v)
        if figure is not None:
            return figure
        row = self.r.last(before=v.start, within=9) if v.value == 0 and not v.clock else None
        if row is not None and row.sentence == self.number and row.reading.quantity == "current":
            talk = [*self.words[row.end : v.start], *self.words[v.end : v.end + 1]]
            if not {"volt", "volts", "voltage", ";"} & set(talk):
                return self._like(v, row)  # "forty-seven on leg two and leg three is zero"
        pair = self._over_pair(v, group)
        if pair is not None:
            return pair
        if self._air_side(v, costs):
            return None
        repeated = self._again(v)
        if repeated is not None:
            return self._like(v, repeated)
        told = self._by_said_before(v, group)
        if told is not None:
            return told
        own = next((x for _, x in costs if 0 <= x.start - v.end <= 2), None) if v is group[-1] else None
        if v is group[0] and (compared := self._compared(v, costs)) is not None:
            return compared
        rewound = self._windings_again(v, group)
        if rewound is not None:
            return rewound
        if self._row_behind_volts(v, group):
            tell_outright(self.r.narration, v.start)
            return self._assume(v, "current", None, "row")
        if self._leg_amps(v, group):
            return self._assume(v, "current", None, "row")
        if self._ohms_to_ground(v):
            return self._assume(v, "resistance", None, "row")
        if (
            previous is not None
            and v is not group[0]
            and previous.reading.quantity in {"current", "resistance"}
        ):
            live = self._voltage_place(v) or self._framed_volts(v, None)
            if live is not None:
                return live  # "zero amps, one eighteen at its plug"
        beside = self._depth_goes_on(v) or self._beside_test(v)
        if beside is not None:
            return beside
        timed = previous is not None and previous.reading.quantity in {"duration", "temperature"}
        if timed and v is not group[0]:
            in_test = self._in_test(v, costs, zone)
            if in_test is not None:
                return in_test
        if previous is not None and v is not group[0] and not self._capacitor_marking(v):
            wanted = (own.label.quantity or own.label.default) if own is not None else None
            if wanted is None or (wanted == previous.reading.quantity and own is not None and own.label.weak):
                return self._like(v, previous)
            if wanted == previous.reading.quantity and (own is None or not own.label.point):
                return self._like(v, previous)
            if own is not None and own.label.weak and previous.reading.quantity in ELECTRICAL:
                return self._like(v, previous)  # "480, 480, 0 on the bottom"
            return self._assume(v, wanted, own)
        if self._which_one(v):
            return None
        lost = self.r.last("voltage", before=v.start, within=14)
        shared = v.numbers and v.numbers[0].form == "fraction" and self.words[v.end : v.end + 1] == ["across"]
        if shared and lost is not None and 0 <= (lost.reading.value or 0) < 30:
            return self._like(v, lost)  # "half a volt across the left pole and a quarter across the other"
        in_test = self._in_test(v, costs, zone)
        if in_test is not None:
            return in_test
        if (last_here := self.r.last(before=v.start, within=8)) is not None and self._parallel_place(
            v, last_here
        ):
            return self._like(v, last_here)
        return OPEN

    def _best_label(self, v: Value, costs: list[tuple[float, LabelAt]]) -> tuple[float, LabelAt] | None:
        """Return the nearest label that can be this number's, with how far it is."""
        for cost, label in costs:
            if label.label.quantity or label.label.default:
                if label.label.default == "duration" and not self._time_size(v):
                    continue
                if self._set_to(label) and not self._set_temperature(v):
                    continue
                if label.label.default == "current" and label.label.weak and not self._motor_runs(label, v):
                    continue
                if self._vacuum_on(v, label) or self._pulled_to(v, label):
                    continue
                if cost <= self._limit(label, v):
                    return cost, label
        return None

    def _by_another_matter(
        self,
        v: Value,
        group: list[Value],
        best: tuple[float, LabelAt] | None,
        last: Taken | None,
        point: str | None,
    ) -> Link | Open | None:
        """Look for what beats a label: a supply, a time of day, a temperature, a setting, a marking."""
        if v.clock and 100 <= v.value < 700 and self._setting(v) == "pressure" and self._near_control(v):
            return self._assume(v, "pressure", None, "setting")
        if v.clock and (v.numbers[0].form == "clock" or self.words[v.start - 2 : v.start] in CLOCKED):
            timed = best is not None and best[1].label.default == "duration" and best[0] <= 3
            if not timed or self.words[v.start - 1] == "at":
                return None  # "in at four ten, out at four forty five", "at 12:50"
        if v.clock and (best is None or best[1].label.weak) and not self._test_goes_on(v):
            near_mode = (
                best is not None and best[1].label.mode in {"vacuum", "pressure_test"} and best[0] <= 9
            )
            if not near_mode:
                return None
        if self._dual_voltage(v):
            return self._assume(v, "voltage", None, "marking")
        if self._fed(v) and (best is None or best[1].label.weak or best[1].label.default != "pressure"):
            return self._assume(v, "voltage", None, "row")
        again = self._second_supply(v, best) or self._farads_go_on(v)
        if again is not None:
            return self._like(v, again)
        strong = best is not None and not best[1].label.weak and best[0] <= 6
        if not strong and (self._stated_difference(v) or self._bare_difference(v)):
            return self._difference_link(v)
        weather = self._weather(v) or self._by_place(v)
        if weather is not None:
            return weather
        other_one = self._on_the_other(v)
        if other_one is not None and (best is None or best[1].label.weak):
            return self._like(v, other_one)
        if self._of_nitrogen(v):
            return self._assume(v, "pressure", None, "row")
        test_before = self._test_value_again(v)
        if test_before is not None:
            return self._like(v, test_before)
        if best is not None and self._mains(v, best[1]):
            return self._assume(v, "voltage", None, "point")
        if point is not None and best is not None and self._point_leads(v, best[1]):
            return self._assume(v, point, None, "point")
        if (
            len(group) == 3
            and all(x.bare and x.value >= 180 for x in group)
            and self._alike_mains(group, best)
        ):
            return self._supply_list(v, group)
        probe = self._probe_goes_on(v)
        if probe is not None:
            return self._like(v, probe)
        if self._pulled_down(v):
            return self._assume(v, "vacuum", None, "row")
        live = self._voltage_place(v) if best is None or best[1].label.weak else None
        sided = best is None or best[1].label.weak or best[1].label.point in {"inlet", "outlet"}
        live = live or (self._in_and_out(v) if sided else None)
        if live is not None:
            return live
        live = self._both_sides(v) if best is None or best[1].label.weak else None
        live = live or self._at_the_end(v, best)
        if live is not None:
            return live
        side = self._other_side(v)
        if side is not None and (best is None or best[1].label.weak):
            return self._like(v, side)
        if self._amps_behind_volts(v) and (best is None or best[1].label.weak):
            return self._assume(v, "current", None, "list")
        if self._at_temperature(v, last):
            link = self._assume(v, "temperature", None, "condition")
            if link is not None and not self._tested_at(v):
                link.reasons.append(
                    f"{self.r.narration.heard(v.start, v.end)!r} was said without its degrees"
                )
            return link
        if v.below or v.above or self._signed(v, best):
            cold = best[1] if best is not None and best[1].label.fits("temperature") else None
            link = self._assume(v, "temperature", cold, "label")
            before = self._tracked(v)
            if link is not None and cold is None and before is not None:
                link.carried = before
            return link
        set_to = self._setting_pair(v)
        if set_to is not None:
            return self._assume(v, set_to, None, "setting")
        if self._capacitor_marking(v):
            return self._assume(v, "capacitance", None, "marking")
        if (
            v.value in NOMINAL_VOLTS
            and v.value >= 100
            and self.words[v.start - 2 : v.start] in (["amps", "at"], ["watts", "at"], ["ohms", "at"])
        ):
            return self._assume(v, "voltage", None)
        if (
            last is not None
            and last.reading.quantity == "power"
            and self.words[last.end : v.start] in (["at"], ["on"])
        ):
            return self._assume(v, "voltage", None)
        weak = best is None or best[1].label.weak
        getting = {"getting", "gets"} & set(self.words[max(self.first, v.start - 3) : v.start])
        if getting and weak and mains(v.value):
            return self._assume(v, "voltage", None)
        setting = self._setting(v) if best is None or best[1].label.weak else None
        if setting is not None:
            return self._assume(v, setting, None, "setting")
        circuit = next((x for x in self.values if x.start == v.end + 2 and x.word == "volt"), None)
        if (
            circuit is not None
            and self.words[v.end : v.end + 2] == ["on", "a"]
            and 0.7 <= v.value / circuit.value <= 1.4
        ):
            return self._assume(v, "voltage", None)  # "118 on a 115 volt circuit"
        plate = {"plate", "nameplate", "rated", "label", "tag"} & set(self.words[v.end : v.end + 4])
        if (
            best is None
            and self.words[v.start - 1 : v.start] in (["a"], ["an"])
            and point is None
            and not plate
        ):
            return None  # "the breaker is a 30"
        if (
            v.value == 0
            and {"meter", "checked", "tested", "power", "metered"}
            & set(self.words[max(self.first, v.start - 8) : v.start])
            and (best is None or best[1].label.weak)
        ):
            return self._assume(v, "voltage", None)
        if best is not None and v.numbers and v.numbers[0].form in {"two_digits", "short_decimal"}:
            # "I had six one on this box": the point is left out of amps, hardly ever of degrees
            same = (
                last is not None
                and last.sentence == self.number
                and last.reading.quantity in {"current", "resistance"}
            )
            if same and last is not None and best[1].label.default == "temperature":
                return self._like(v, last)
        return OPEN

    def _by_its_label(
        self,
        v: Value,
        zone: Zone,
        best: tuple[float, LabelAt],
        last: Taken | None,
        point: str | None,
        component: tuple[str, float] | None,
    ) -> Link | None:
        """Look at the label, and at what speaks against a weak one."""
        quantity = best[1].label.quantity or best[1].label.default
        assert quantity is not None
        if (
            best[1].label.weak
            and quantity == "current"
            and v.value >= 20
            and {"down", "to"} & set(self.words[best[1].end : v.start])
        ):
            test = self._test_value(v, ["to"], last)
            if test is not None:
                return test
        alike = last is not None and last.sentence == self.number and last.reading.quantity != quantity
        if (
            alike
            and last is not None
            and best[1].label.weak
            and quantity == "current"
            and last.reading.quantity == "pressure"
            and v.start - last.end <= 6
            and self._alike_said(last, v)
            and component is None
        ):
            return self._like(v, last)  # "low side coming down, sixty, fifty, it's settling at thirty-eight"
        if best[1].label.weak and last is not None and alike and not best[1].label.mode:
            on = self._scaled(v, last)
            if last.reading.quantity in ELECTRICAL and self._very_alike(last.reading, on):
                carried = self._carry(v, zone, last)
                if carried is not None:
                    return carried
        if component is not None and best[1].label.weak and component[1] < best[0]:
            quantity = component[0]
            return self._assume(v, quantity, None)
        if point is not None and best[1].label.weak:
            return self._assume(v, point, None, "point")
        if best[1].label.weak and best[1].label.mode and not self._mode_value(v, best[1], quantity):
            return self._carry(v, zone, last)
        told = quantity
        quantity = self._by_room(v, zone, best[1], quantity)
        if quantity == "concentration" and v.value > 100:
            return self._carry(v, zone, last)
        if self._is_name(v, best[1]):
            return None
        link = self._assume(v, quantity, best[1])
        if link is not None and (told, quantity) == ("pressure", "temperature") and self._warmth_unsure(v):
            link.reasons.append("no unit was said: it may be a pressure")
        if (
            link is not None
            and best[1].label.weak
            and not fits(link.quantity, link.point or best[1].label.point, link.amount, link.unit)
        ):
            return self._carry(v, zone, last) or link
        return link

    def _by_talk(self, v: Value, group: list[Value], zone: Zone, last: Taken | None) -> Link | None:
        """Look at what the sentence is about, and at what was read before."""
        if self._motor_talk(v):
            return self._assume(v, "current", None, "row")
        if self._winding_talk(v):
            return self._assume(v, "resistance", None, "row")
        if self._microns_ahead(v):
            return self._assume(v, "vacuum", None, "row")
        tested = self.r.mode_at(v.start) in {"vacuum", "pressure_test"}
        row = self._amps_at(v) or (None if tested else self._supply_list(v, group))
        if row is None and not tested and last is None and self._supply_compared(v):
            row = self._assume(v, "voltage", None, "row")
        return row or self._carry(v, zone, last)
