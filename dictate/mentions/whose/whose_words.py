"""Which words around a value belong to it: the labels, components and points of its zone.

A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

import itertools

from dictate.mentions.labels import ComponentAt, LabelAt, PointAt
from dictate.mentions.quantities import FILLERS
from dictate.mentions.values import Value
from dictate.mentions.whose.series import Series
from dictate.mentions.whose.taken import BREAKS, COPULAS, DIFFERENCES, PREPOSITIONS, WORK, Zone
from dictate.mentions.word_lists import word_list


class WhoseWords(Series):
    """Which words around a value belong to it: the labels, components and points of its zone."""

    def _zones(self, groups: list[list[Value]]) -> list[Zone]:
        edges = [(g[0].start, g[-1].end) for g in groups]
        cuts = []
        backward = self._backward(edges)
        for i in range(len(edges) - 1):
            cuts.append(self.split(edges[i][1], edges[i + 1][0], backward, groups[i]))
        zones: list[Zone] = []
        for i, (start, end) in enumerate(edges):
            begin = self.first if i == 0 else cuts[i - 1]
            stop = cuts[i] if i + 1 < len(edges) else self._tail(end, self.last)
            if i and begin >= start - 1 and self._only_times(groups[i - 1], zones[-1]):
                begin = zones[-1].pre[0]  # "suction | at 5 minutes in | 52": the time stands between
            zones.append(Zone((begin, start), (end, stop)))
        return zones

    def _only_times(self, group: list[Value], zone: Zone) -> bool:
        """Tell whether a value only says when the next one was read: "at 5 minutes in", "an hour later"."""
        v = group[0]
        if len(group) > 1 or self._kind(v) != "duration":
            return False
        before = self.words[v.start - 1 : v.start] if v.start > self.first else []
        return bool(before and before[0] in {"at", "after", "in"}) and any(
            zone.pre[0] <= x.start
            and x.end <= zone.pre[1]
            and not (x.label.weak or x.label.mode or x.label.default == "duration")
            for x in self.labels
        )

    def _items_in(self, start: int, end: int) -> list[tuple[int, int]]:
        return [(s, e) for s, e in self.items if start <= s and e <= end]

    def _backward(self, edges: list[tuple[int, int]]) -> bool:
        """Tell whether this sentence says what was measured after each value ("22 suction, 210 head")."""
        if not edges:
            return False
        before = list(self._items_in(self.first, edges[0][0]))
        if before:
            return False
        first = next((v for v in self.values if v.start == edges[0][0]), None)
        if first is not None and self._kind(first) in {"duration", "mass", "flow"}:
            return (
                self._backward(edges[1:])
                if len(edges) > 1 and not self._items_in(edges[0][1], edges[1][0])
                else False
            )
        stop = edges[1][0] if len(edges) > 1 else self.last
        behind = self._items_in(edges[0][1], stop)
        kind = self._kind(first) if first is not None else None
        if kind is not None:
            spans = {(x.start, x.end) for x in self.labels if not x.label.fits(kind)}
            spans -= {(c.start, c.end) for c in self.components if kind in c.component.measures}
            behind = [x for x in behind if x not in spans]
        return bool(behind)

    def _breaks(self, start: int, end: int) -> list[int]:
        inside = {t for s, e in self.items for t in range(s, e)}
        return [i for i in range(start, end) if self.words[i] in BREAKS and i not in inside]

    def _starts_after(self, start: int, end: int) -> bool:
        """Tell whether the words [start, end) hang on the value before them."""
        i = start
        while i < end and self.words[i] in FILLERS:
            i += 1
        if i >= end:
            return False
        return self.words[i] in PREPOSITIONS

    def split(self, start: int, end: int, backward: bool, before: list[Value]) -> int:
        """Return where the words between two values change hands."""
        if start >= end:
            return start
        named = self._named_behind(start, before[0].start)
        if named:
            return named
        items = self._items_in(start, end)
        breaks = self._breaks(start, end)
        if not items:
            return breaks[0] if breaks else start
        tail_copula = self._copulas_only(items[-1][1], end)
        if not breaks:
            if self._starts_after(start, end):
                if len(items) >= 2 and items[-1][0] > items[0][1] - 1 and tail_copula:
                    # "on the line side | load side": the last label leads to the next value
                    return items[-1][0] if not self._same_noun(items) else end
                if (
                    tail_copula
                    and end > items[-1][1]
                    and self.words[end - 1] in {"is", "was", "'s", "at", "reads", "are"}
                ):
                    return start if self._has_pre(before) else end
                return end
            direct = items[0][0] - start <= 1
            if (
                direct
                and (backward or self._difference_after(before, items[0]))
                and not self._is_led(items, end)
            ):
                if len(items) >= 2 and tail_copula and items[-1][0] >= items[0][1]:
                    return items[-1][0]
                return end
            return start
        segments = []
        a = start
        for b in [*breaks, end]:
            segments.append((a, b))
            a = b + 1
        cut = start
        first = segments[0]
        if first[0] < first[1]:
            own = self._items_in(*first)
            if self._starts_after(*first) or (
                own
                and own[0][0] - first[0] <= 1
                and (
                    backward
                    or self._difference_after(before, own[0])
                    or (len(segments) > 1 and self._direct_label(before, own, first))
                )
            ):
                cut = first[1]
        else:
            cut = first[1]
        for seg in segments[1:-1]:
            if cut == seg[0] - 1 and self._starts_after(*seg) and self._items_in(*seg):
                cut = seg[1]
            else:
                break
        return cut

    def _difference_after(self, before: list[Value], item: tuple[int, int]) -> bool:
        """Tell whether a label of a difference follows its value at once: "8 degrees superheat"."""
        for label in self.labels:
            if (label.start, label.end) == item and label.label.quantity in DIFFERENCES:
                following = any(v.start == label.end for v in self.values)
                if self._has_pre(before) and (following or before[-1].quantity is None):
                    return False
                return not self._has_pre(before, DIFFERENCES)
        return False

    def _direct_label(
        self, before: list[Value], own: list[tuple[int, int]], segment: tuple[int, int]
    ) -> bool:
        """Tell whether "241 line side, 240 load side" puts the label right behind the value."""
        s, e = own[-1]
        if e != segment[1]:
            return False
        if self._has_pre(before):
            # "Voltage at the contactor 241 line side, 240 load side": the point still was missing
            start = before[0].start
            stop = max((v.end for v in self.values if v.end <= start), default=self.first)
            point = any(p.start == s for p in self.points)
            return point and s == segment[0] and not any(stop <= p.start < start for p in self.points)
        return True

    def _has_pre(self, group: list[Value], quantities: frozenset[str] | None = None) -> bool:
        """Tell whether the value already has a label of its own in front of it."""
        start = group[0].start
        stop = max((v.end for v in self.values if v.end <= start), default=self.first)
        labels = [x for x in self.labels if stop <= x.start and x.end <= start]
        if quantities is not None:
            return any(x.label.quantity in quantities for x in labels)
        others = list(self._items_in(stop, start))
        return bool(others)

    def _is_led(self, items: list[tuple[int, int]], end: int) -> bool:
        """Tell whether a copula leads from the last item to the next value."""
        gap = self.words[items[-1][1] : end]
        return bool(gap) and all(w in COPULAS for w in gap)

    def _copulas_only(self, start: int, end: int) -> bool:
        return all(w in COPULAS or w in FILLERS for w in self.words[start:end])

    def _same_noun(self, items: list[tuple[int, int]]) -> bool:
        """Tell whether the items are one phrase ("on the contactor line side")."""
        for (_, a), (b, _) in itertools.pairwise(items):
            if b - a > 1 or (b - a == 1 and self.words[a] not in {"'s", "the", "of", "on"}):
                return False
        points = [p for p in self.points if (p.start, p.end) in items]
        labels = [x for x in self.labels if (x.start, x.end) in items]
        return len(points) < 2 and len(labels) < 2

    def _named_behind(self, start: int, opens: int) -> int:
        """Return the end of the name behind a value that opens its clause ("Fifty-eight, return air").

        `opens` is where the value begins. The name stands right behind the pause, with nothing that presents
        another value; 0 when there is none.
        """
        end = self.last
        if start >= end or self.words[start] not in {",", ":"}:
            return 0
        i = opens
        while i > self.first and self.words[i - 1] in FILLERS:
            i -= 1
        if i > self.first and self.words[i - 1] != ";":
            return 0
        stop = start + 1
        while stop < end and self.words[stop] not in {",", ";", ":", ".", "?", "!"}:
            stop += 1
        own = self._items_in(start + 1, stop)
        if not own or stop - start > 8:
            return 0
        if any(w not in word_list("readings_naming_behind") for w in self.words[start + 1 : own[0][0]]):
            return 0
        if any(start < x.start < stop for x in self.values):
            return 0  # the words lead to the next value: "Eighteen, suction 40"
        return stop

    def _tail(self, start: int, end: int) -> int:
        """Return how far the words after the last value belong to it."""
        opens = next((g[0].start for g in self.groups if g[-1].end == start), start)
        named = self._named_behind(start, opens)
        if named:
            return named
        breaks = self._breaks(start, end)
        segments = []
        a = start
        for b in [*breaks, end]:
            segments.append((a, b))
            a = b + 1
        stop = segments[0][1]
        for seg in segments[1:]:
            if self._starts_after(*seg) and self._items_in(*seg) and seg[1] - seg[0] <= 6:
                stop = seg[1]
            else:
                break
        return stop

    def _labels(self, zone: Zone, v: Value) -> list[tuple[float, LabelAt]]:
        """Return the labels of a zone with their cost: near and strong ones are cheap."""
        out = []
        for label in self.labels:
            if zone.post[0] <= label.start and label.end <= zone.post[1]:
                gap = label.start - v.end
                ahead = next((x for x in self.values if x.start >= label.end), None)
                if label.label.rated and ahead is not None and ahead.start - label.end <= 2:
                    led = self.words[label.end : ahead.start]
                    if all(w in COPULAS for w in led) and not (led and led[-1] in {"at", "and"}):
                        continue  # "10.6 on an RLA of 13.5": the rating is the number behind it
                pauses = len(self._breaks(zone.post[0], label.start))
                if pauses and self._named_behind(v.end, v.start):
                    pauses, gap = pauses - 1, gap - 1
                cost = gap + 1.0 + 4 * pauses
                if gap > 8:
                    continue
            elif zone.pre[0] <= label.start and label.end <= zone.pre[1]:
                words = self.words[label.end : zone.pre[1]]
                if len(words) - self._place_words(label.end, v.start) > label.label.gap:
                    continue
                cost = (
                    float(len(words))
                    + 3 * sum(w in {",", ";", "but"} for w in words)
                    + sum(w in {"and", "so", "then", "with", "while"} for w in words)
                )
                if WORK & set(words):
                    cost += 12
            else:
                continue
            if (
                label.label.weak
                and label.label.default == "current"
                and label.end <= v.start
                and "down" in self.words[label.end : v.start]
            ):
                continue  # "pulled down to 38" is no current
            if label.label.weak:
                cost += 5
            if label.label.quantity is not None:
                cost -= 3
            if label.end <= v.start and self._only_place(label):
                if label.label.default == "duration" and v.bare and not self._told_time(label, v):
                    continue  # "end of freeze 34" says when
                cost += 8
            out.append((cost, label))
        return sorted(out, key=lambda x: x[0])

    def _told_time(self, label: LabelAt, v: Value) -> bool:
        """Tell whether a number is how long a freeze or harvest took: "freeze time thirteen and a half"."""
        if label.label.point not in {"freeze", "harvest", "defrost"} or label.end > v.start:
            return False
        told = word_list("readings_told_time") & set(self.words[label.start : v.start])
        if not told and label.label.point in {"freeze", "harvest"} and v.value != int(v.value):
            # "the freeze was fifteen and a half": how long, no temperature is told so
            told = COPULAS & set(self.words[label.start : v.start])
            told = told or frozenset(
                {"freeze"} if label.end == v.start else ()
            )  # "freeze twenty one and a half"
        gap = set(self.words[label.end : v.start]) - word_list("readings_told_time")
        after = self.words[v.end] if v.end < self.last else "."
        if (
            not told
            or not gap <= word_list("readings_time_gap")
            or after not in word_list("readings_time_ends")
        ):
            return False
        return v.value <= 9 if label.label.point == "harvest" else 4 <= v.value <= 60

    def _place_words(self, start: int, end: int) -> int:
        """Return how many words at `start` only say where.

        As in "fan | on the roof | 1.1", "air | at the remote | 99".
        """
        words = self.words[start:end]
        if len(words) < 3 or words[0] not in {"on", "at", "in", "by", "under", "behind"} or words[1] != "the":
            return 0
        shelf = next((x for x in self.labels if x.start == start + 2 and x.label.weak), None)
        if shelf is not None and shelf.end < end and "shelf" in words:
            return shelf.end - start  # "Danish | on the top shelf, | 43"
        inside = any(s < start + 3 and start < e for s, e in self.items)
        return 0 if inside or not words[2].isalpha() else 3

    def _only_place(self, label: LabelAt) -> bool:
        """Tell whether a label only says where another one was read: "suction at the case was 68"."""
        i = label.start - 1
        if i >= self.first and self.words[i] in {"the", "this", "that"}:
            i -= 1
        moments = {"end", "start", "beginning", "middle"}
        if i > self.first and self.words[i] in {"of", "in"} and moments & set(self.words[i - 1 : i]):
            return True
        if i < self.first or self.words[i] not in {"at", "in", "on", "from", "by", "near", "off", "to"}:
            return False
        return any(
            x.end == i and (x.label.quantity or x.label.default) and not x.label.mode for x in self.labels
        )

    def _comps(self, zone: Zone) -> list[ComponentAt]:
        post = [c for c in self.components if zone.post[0] <= c.start and c.end <= zone.post[1]]
        pre = [c for c in self.components if zone.pre[0] <= c.start and c.end <= zone.pre[1]]
        rows = [*post, *self._heads_first(pre)[::-1]]
        # "The valve coil while the board was calling, 24.5 volts": what only tells when comes last.
        return sorted(rows, key=lambda c: c.backdrop) if any(c.backdrop for c in rows) else rows

    def _heads_first(self, row: list[ComponentAt]) -> list[ComponentAt]:
        """Put a part nearer than what it serves: "the contactor for the beater" is the contactor."""
        out: list[ComponentAt] = []
        for c in row:
            out.insert(len(out) - (c.whose and bool(out) and out[-1].end <= c.start), c)
        return out

    def _pts(self, zone: Zone, quantity: str) -> list[PointAt]:
        fits_ = [p for p in self.points if quantity in p.only]
        post = [p for p in fits_ if zone.post[0] <= p.start and p.end <= zone.post[1]]
        pre = [p for p in fits_ if zone.pre[0] <= p.start and p.end <= zone.pre[1]]
        return [*post, *reversed(pre)]
