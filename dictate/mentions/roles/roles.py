"""Roles and relations: a value measured now, wanted, on a plate, from an earlier visit, or a guess.

The model is the one of clinical context finders (trigger, direction, scope, terminator), with words of the
trade in cues.toml: a cue reaches forward from itself ("should be", "plate says"), back to the value in
front of it ("on the plate", "is the target"), or over its clause ("last year"); words that speak of now
("but I'm getting") end its reach.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from operator import attrgetter

from dictate.mentions.narration import Narration
from dictate.mentions.roles.cue_words import RoleWords
from dictate.mentions.roles.cues import Cue, cue_starts, find_cues
from dictate.mentions.roles.spans import find_spans
from dictate.mentions.word_lists import word_list

_PRINTED = (["printed"], ["stamped"], ["marked"], ["plated"])
_IS = frozenset({"is", "'s", "was", "are", "were"})
_MODAL_ENDS = frozenset({"should", "ought", "must", "be", "to"})
_CONDITIONS = frozenset({"if", "unless", "whenever", "once"})
_STATES = frozenset({"closed", "open", "shut", "off", "dead", "zero", "nothing"})
_NOW = frozenset({"now", "today", "currently", "but", "today's"})


_start = attrgetter("start")


class Roles(RoleWords):
    """The role of each value of one sentence; `values` are (start, end) token spans in order."""

    def __init__(
        self,
        narration: Narration,
        sentence: tuple[int, int],
        values: Sequence[tuple[int, int]],
        labels: Sequence[tuple[int, int]],
    ) -> None:
        self.narration = narration
        self.first, self.last = sentence
        self.values = list(values)
        self.labels = list(labels)
        self.quantities: dict[int, str] = {}
        self.passed: set[tuple[int, int]] = set()
        cues = find_cues(narration)
        starts = cue_starts(narration)
        self.words = narration.lowers
        self.all_cues = self._not_taken(
            cues[bisect_left(starts, self.first) : bisect_left(starts, self.last)]
        )
        self.cues = self.all_cues
        spans = find_spans(narration)
        self.spans = spans[
            bisect_left(spans, self.first, key=_start) : bisect_left(spans, self.last, key=_start)
        ]

    def of(self, n: int, quantity: str) -> tuple[str, Cue | None]:
        """Return (role, the cue that gives it) of value n, which is a value of this quantity."""
        self.quantities[n] = quantity
        if self._allowed_range(n):
            return "target", None
        if self._was_on_a_sheet(n):
            start = self.values[n][0]
            return "earlier", Cue(start - 1, start, "earlier", "before", "value")
        self.cues = [
            c
            for c in self.all_cues
            if (not c.only or quantity in c.only)
            and not (c.unless and c.unless & set(self.words[c.end : self.last]))
        ]
        earlier = self._earlier(n)
        if quantity == "vacuum" and earlier is not None and "time" in self.words[earlier.start : earlier.end]:
            earlier = None  # "broke with nitrogen each time, five hundred the last time"
        if earlier is not None:
            wish = self._wish(n) or self._plate_in_front(n)
            if wish is not None and wish.start >= earlier.start:
                return wish.role, wish  # "the inspector wants 41", "7.1 last month and the limit is 8"
            return "earlier", earlier
        start = self.values[n][0]
        for span in self.spans:
            now = span.role == "earlier" and self._behind(n) in {"now", "today"}
            if span.start <= start < span.end and not now and (not span.only or quantity in span.only):
                return span.role, Cue(
                    span.start, span.start + 1, span.role, "before", "sentence", sure=span.sure
                )
        after = self._after(n)
        before = self._before(n)
        if (
            before is not None
            and before.reach == "value"
            and before.role != "measured"
            and after is not None
            and after.role == "expected"
        ):
            return before.role, before  # "if it doesn't hold 41 by tomorrow"
        if after is not None and after.role == "measured":
            gap = self.words[before.end : self.values[n][0]] if before is not None else []
            near = before is not None and before.role != "measured" and len(gap) <= 2 and "," not in gap
            if not near:
                return "measured", after
            after = None
        if after is not None and (
            before is None or after.role in {"rated", "expected"} or before.role == "measured"
        ):
            return after.role, after
        if before is not None and before.role != "measured":
            same = after is not None and after.role == before.role and before.needs
            return before.role, after if same else before  # "cut out at eighty by the sheet"
        if after is not None:
            return after.role, after
        return "measured", before

    def _not_taken(self, cues: list[Cue]) -> list[Cue]:
        """Leave out forward cues inside of words that look back: "10.8 on the plate, 206 under load"."""
        back = [
            c
            for c in cues
            if c.where == "after"
            and any(
                e <= c.start <= e + 4
                and not {",", "but", ";"} & set(self.words[e : c.start])
                and not (c.role == "target" and "and" in self.words[e : c.start])
                for _, e in self.values
            )
            and not self._copula_then_value(c.end)
        ]
        wishes = [
            c
            for c in cues
            if c.where == "after"
            and {"what", "where", "how"} & set(self.words[c.start : c.start + 2])
            and not self._copula_then_value(c.end)
        ]
        cues = [c for c in cues if not self._in_passing(c)]
        return [
            c
            for c in cues
            if c.where != "before" or not any(a.start <= c.start and c.end <= a.end for a in (*back, *wishes))
        ]

    # -- forward

    def _before(self, n: int) -> Cue | None:
        start, _ = self.values[n]
        best: Cue | None = None
        for cue in self.cues:
            if cue.where != "before" or cue.end > start:
                continue
            if cue.reach == "value" and (self._happened(cue, start) or self._one_time(cue)):
                continue
            if cue.role == "target" and (
                self._could_not(cue)
                or self._of_a_thing(cue, start)
                or self._laid(cue, start)
                or self._converted(cue, n)
            ):
                continue
            if cue.role == "expected" and (self._took_so_long(cue) or self._has_come(cue, start)):
                continue
            if cue.needs and {"opened", "tripped", "closed"} & set(self.words[cue.end : start]):
                continue
            if cue.role == "target" and self._acted(cue, start):
                continue
            cuts = bool(cue.needs) and cue.role == "target"
            if cuts and self._did_cut(cue):
                continue
            if cuts and start - cue.end <= 1 and self.words[cue.end : start] in ([], ["is"]):
                best = cue if best is None or self._outranks(cue, best) else best
                continue  # "cut in 20" is a setting
            if cue.needs and not cue.needs & set(self.words[self.first : self.last]):
                continue
            if cue.role == "measured":
                if best is None or self._ends(best, cue):
                    best = cue
                continue
            if cue.role == "target" and self.words[cue.end - 1] in _MODAL_ENDS and self._elliptic(cue):
                continue
            had = self.words[cue.start] == "had" and cue.end - cue.start == 2
            if cue.role == "target" and had and not self._would_have(cue):
                continue
            if cue.role == "rated" and (self._is_after_cue(cue) or self._looks_back(cue)):
                continue
            plated = self.quantities.get(n) == "temperature" and self.words[cue.start] == "plate"
            if plated and not word_list("roles_on_a_plate") & set(self.words[cue.start : start]):
                continue  # "the plate minus eleven", "plate's at nineteen": an evaporator plate
            best = cue if best is None or self._outranks(cue, best) else best
        if best is None or best.role == "measured":
            return best
        if self._reaches(best, n):
            return best
        self.passed.add((best.start, n))
        return None

    def _outranks(self, new: Cue, old: Cue) -> bool:
        # "plate says it should be 208": the nearer cue wins, but a wish about later stays a wish, and what
        # the plate calls for is the plate's.
        if old.reach == "sentence":
            return False
        if old.role == "rated" and new.role == "target" and old.end <= new.start <= old.end + 3:
            return bool({",", "and", "but", ";"} & set(self.words[old.end : new.start]))
        return not (old.role == "expected" and new.role == "target" and new.start - old.end <= 1)

    def _ends(self, cue: Cue, now: Cue) -> bool:
        """Tell whether a word about now ends the reach of a cue: not in "should be reading"."""
        if cue.role == "measured":
            return True
        if cue.reach == "sentence":
            return False
        between = self.words[cue.end : now.start]
        condition = self.words[cue.start] in _CONDITIONS and not {",", "but", "and", ";"} & set(between)
        if condition and self.words[now.start] in word_list("roles_present"):
            return False  # "if it ever comes up over 20"
        if (
            self.words[cue.end : cue.end + 1]
            and self.words[cue.end] in _STATES
            and ({"and", "but"} & {*between, self.words[now.start]})
        ):
            return True  # "that should be closed and it's open"
        if self.words[now.start : now.end] in (["it", "is"], ["it", "'s"]):
            # "set at 72 and it is 81 in there", but "don't raise the set point, it's on 36"
            return cue.role != "rated" and any(cue.end <= s < now.start for s, _ in self.values)
        if any(cue.end <= s < now.start for s, _ in self.values):
            return True  # "rated 10 microfarads | tested 6.4"
        if now.start - cue.end <= 2 and not {",", "and", "but", ";"} & set(between):
            return bool(_NOW & set(self.words[now.start : now.end])) and cue.role not in {"target"}
        return True

    def _behind(self, n: int) -> str:
        """Return the word behind a value, "" at the end of the talk."""
        end = self.values[n][1]
        return self.words[end] if end < len(self.words) else ""

    def _when_i(self, n: int) -> bool:
        """Tell whether a value is said for something that was done: "3.9 when I force it"."""
        end = self.values[n][1]
        return self.words[end : end + 2] in (["when", "i"], ["when", "we"], ["while", "i"], ["once", "i"])

    def _reaches(self, cue: Cue, n: int) -> bool:
        if cue.reach == "sentence":
            return True
        start, _ = self.values[n]
        inner = [k for k, (s, _) in enumerate(self.values) if cue.end <= s < start]
        compared = bool(inner) and cue.role == "rated" and self._behind(inner[-1]) != "at"
        if compared and self._aside(cue, inner[0]) and not self._like(inner, n):
            return False  # "2.6 amps, rated 3.1, 120 volts"
        if inner and cue.role == "target" and (cue.start, inner[0]) in self.passed:
            return False  # "you want about 800 cfm, suction was 98 and head 310"
        across = self.quantities.get(n) == "voltage" and self._behind(n) == "across"
        if inner and cue.role == "rated" and across:
            return False  # "it's rated for 24 volts, 25.4 across R and C"
        volts = self.quantities.get(n) == "voltage" and self._behind(n) in {"at", "across"}
        placed = volts or (self._at_a_place(n) and not self._like(inner, n))
        if inner and cue.role == "target" and placed:
            return False  # "it's set for 0, 118 volts at the plug"
        # A value between the cue and this one: only what is joined to it goes along.
        along = self.words[self.values[inner[-1]][1] : start] if inner else []
        if (
            cue.reach == "value"
            and inner
            and along[:1]
            and along[0] in {"for", "in", "within"}
            and len(along) <= 2
        ):
            return cue.role == "target"  # "has to hold below 1000 for ten minutes"
        if cue.reach == "value" and inner:
            return self._joined(inner[0], n) and cue.role == "target"
        if inner and cue.role == "target" and self._named_behind(inner[-1], n):
            return False
        if cue.role == "target" and inner and self._own_doing(cue.end, start):
            return False
        if cue.role == "target" and "," in self.words[cue.end : start] and self._when_i(n):
            return False  # "that's what you want, and 3.9 when I force it"
        if inner and not self._joined(inner[0], n):
            if cue.reach == "list":
                return False
            between = self.words[self.values[inner[0]][1] : start]
            plain = not word_list("roles_reaches") & set(between) and not self._run_on(between, start)
            far = 6 if "," in between else 16
            if cue.role == "target" and cue.reach == "clause" and plain and len(between) <= far:
                return True
            # "plate says 208, 8.6 amps": still the plate, until something else is named
            if cue.role == "rated":
                if self._shared_out(inner[-1], n):
                    return True
                if self._at_a_place(n):
                    return False  # "plate charge 3 pounds, 230 volts at the contactor"
                if (_IS | word_list("readings_role") | word_list("roles_taking") | {"i", "we"}) & set(
                    self._less_again(between)
                ):
                    return False  # "that one's marked 15, is 14.6", "the plate allows 20, so I put 18 in"
                return not self._new_label(self.values[inner[0]][1], start, strict=True)
            return False
        if self._new_label(cue.end, start, strict=False):
            return False
        if cue.reach == "value" and ":" in self.words[cue.end : start]:
            return False  # "not getting slush any more: 37"
        if cue.reach == "list" or cue.role == "rated":
            return True
        if not inner and cue.role == "target" and self._wish_told(cue.end, start):
            return False
        if cue.role == "target" and self._own_doing(cue.end, start):
            return False
        return not self._clause_break(cue.end, start)

    def _wish_told(self, start: int, end: int) -> bool:
        """Tell whether a clause with a verb of its own follows the number of a wish that nothing took.

        As in "chef wants 3 in the drawers, they were sitting on 8".
        """
        comma = next((k for k in range(end - 1, start, -1) if self.words[k] == ","), None)
        if comma is None or not (_IS | {"had", "got"}) & set(self.words[comma:end]):
            return False
        return any(self._number_at(k) for k in range(start, comma))

    def _shared_out(self, before: int, n: int) -> bool:
        """Tell whether a plate gives each part its own: "15.4 for the compressor and 1.3 on the fan"."""
        if self.quantities.get(before) != self.quantities.get(n):
            return False
        gap, behind = (
            self.words[self.values[before][1] : self.values[n][0]],
            self.words[self.values[n][1] :][:1],
        )
        led = gap[:1] in (["for"], ["on"]) and behind in (["for"], ["on"])
        return led and len(gap) <= 6 and not (_IS | word_list("readings_role")) & set(gap)

    def _aside(self, cue: Cue, n: int) -> bool:
        """Tell whether a rating stands behind the value that it is set against: "2.6 amps, rated 3.1"."""
        if n == 0:
            return False
        between = self.words[self.values[n - 1][1] : cue.start]
        return len(between) <= (5 if "max" in between else 3) and not {";", ".", "so"} & set(between)

    def _like(self, inner: list[int], n: int) -> bool:
        """Tell whether a value is of the same quantity as one between the cue and it."""
        return any(self.quantities.get(k) in {None, self.quantities.get(n)} for k in inner)

    @staticmethod
    def _less_again(between: list[str]) -> list[str]:
        """Return the words between two values of a plate less those that say the first anew ("which is")."""
        if between[:1] == [","] and between[1:2] == ["which"]:
            return between[3:]
        return between

    def _named_behind(self, before: int, n: int) -> bool:
        """Tell whether a value has a name of its own behind it and the one before has none.

        As in "should be around 230, 228 L1 to L2": the second one was read.
        """
        if self.words[self.values[before][1] : self.values[n][0]] != [","]:
            return False
        starts = {s for s, _ in self.labels}
        return self.values[n][1] in starts and self.values[before][1] not in starts

    def _run_on(self, between: list[str], start: int) -> bool:
        """Tell whether a new label leads to the value without a joint: "set point minus 10 amps 11.3"."""
        if {",", "and", "or", "/", "-"} & set(between):
            return False
        return any(start - 1 <= e <= start and s >= start - len(between) for s, e in self.labels)

    def _joined(self, a: int, b: int) -> bool:
        """Tell whether the values a .. b form one list or range: only small joining words between them."""
        for k in range(a, b):
            between = self.words[self.values[k][1] : self.values[k + 1][0]]
            if any(w not in word_list("roles_joined") for w in between):
                return False
        return True

    def _new_label(self, start: int, end: int, strict: bool) -> bool:
        """Tell whether something new is named after a break between the two places."""
        for s, e in self.labels:
            if start <= s and e <= end:
                gap = self.words[start:s]
                if strict or {",", "and", "but", ";", "so"} & set(gap):
                    return True
        return False

    def _clause_break(self, start: int, end: int) -> bool:
        between = self.words[start:end]
        return any(w in {"but", ";", "so"} for w in between)

    # -- backward

    def _after(self, n: int) -> Cue | None:
        found = self._right_behind(n)
        if found is None and n + 1 < len(self.values):
            gap = self.words[self.values[n][1] : self.values[n + 1][0]]
            if gap in (["or"], ["to"], ["-"], ["up", "to"], [",", "maybe"], ["maybe"], ["or", "maybe"]):
                return self._after(n + 1)  # "nine or ten is what I look for"
        return found

    def _right_behind(self, n: int) -> Cue | None:
        _, end = self.values[n]
        stop = self.values[n + 1][0] if n + 1 < len(self.values) else self.last
        for cue in self.cues:
            if cue.where != "after" or not end <= cue.start < stop:
                continue
            if cue.role == "expected" and self.words[cue.start] == "overnight" and not self._to_come(cue):
                continue  # "left at four fifty overnight" has been
            if cue.role == "expected" and self.words[cue.start] == "by" and self._has_been(n):
                continue  # "it's been 7 or 8 by dinner time"
            if cue.needs and not cue.needs & set(self.words[self.first : self.last]):
                continue
            if cue.reach == "ended" and not self._ends_a_clause(cue):
                continue
            between = self.words[end : cue.start]
            reach = 7 if cue.role == "expected" else 4
            late = cue.role == "expected" and self.words[cue.start] == "by"
            late = late or self.words[cue.start] in {"which", "that"}
            if len(between) > reach or ("," in between and not late) or "but" in between:
                continue
            if cue.role in {"expected", "rated"} and {"and", "so"} & set(between):
                continue
            own = between[between.index(",") + 1 :][:1] if "," in between else []
            if own and own[0] in {"should", "will", "it'll", "she'll", "they'll", "ought", "shall"}:
                continue  # "pack's at 4.2, should lose another degree by lunch"
            if between and cue.role == "rated" and self.words[cue.start : cue.end] in _PRINTED:
                continue  # "fifteen printed", but "0.2 cold and it's marked to open at 55"
            named = cue.role == "target" and any(end <= s < cue.start for s, _ in self.labels)
            if named and not any(s == end and set(self.words[e : cue.start]) <= _IS for s, e in self.labels):
                continue  # but "an 18 or 20 split is what I look for"
            if self._copula_then_value(cue.end) or self._number_at(cue.end):
                continue
            if cue.role == "target" and self._met(cue):
                continue
            if cue.role == "target" and "and" in between and "the" in between[between.index("and") :]:
                continue  # "98 bar and the limit there is 105"
            return cue
        return None

    # -- over the clause

    def _earlier(self, n: int) -> Cue | None:
        start, end = self.values[n]
        for cue in self.cues:
            if cue.where != "around":
                continue
            ahead = self.last + (60 if cue.reach == "later" else 0)
            if cue.needs and not cue.needs & set(self.words[cue.end : ahead]):
                continue
            if cue.end <= start:
                between = self.words[cue.end : start]
                now = bool(_NOW & set(between))
                if _NOW & set(between) == {"but"}:
                    now = not self._still_then(between)
                if now or "this time" in " ".join(between) or self._i_read(between):
                    continue
                if between[:1] == [","] and (self._done_then(cue, between) or self._same_then(cue)):
                    continue
                behind = self.words[end : end + 2]
                if behind[:1] in ([","], [";"], ["."]):
                    behind = []
                if {"now", "today"} & set(behind) and {",", "and"} & set(between):
                    continue  # "it used to draw six, draws nine now"
                # A value before the cue in the same clause takes it: "it was 49 last week, now 40".
                taken = [
                    e
                    for _, e in self.values
                    if e <= cue.start and not {",", ";"} & set(self.words[e : cue.start])
                ]
                if taken and {",", "and"} & set(between):
                    continue
                return cue
            if cue.start >= end:
                between = self.words[end : cue.start]
                if between[:2] in (["and", "change"], ["and", "some"], ["or", "so"]):
                    between = between[2:]
                if {",", ";", "but", "and"} & set(between) or len(between) > 8:
                    continue
                if any(end <= s < cue.start for s, _ in self.values):
                    continue
                back = self.words[max(self.first, start - 6) : start]
                if {"now", "today"} & set(back):
                    continue
                return cue
        return None
