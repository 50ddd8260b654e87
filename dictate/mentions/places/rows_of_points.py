"""Values and points said in rows: "1.4 common to run, 4.8 common to start", "462, 458 across A-B, B-C".

A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

from dictate.mentions.labels import PointAt
from dictate.mentions.said_units import SaidUnits
from dictate.mentions.values import Value
from dictate.mentions.word_lists import word_list

_KINDS = frozenset({"winding", "ground", "legs", "leg"})


class RowsOfPoints(SaidUnits):
    """Which point of a row belongs to which value, where the zones between two values do not tell."""

    def _row_point(self, v: Value) -> PointAt | None:
        """Return the point of a row that belongs to a value, None when no row tells it."""
        found: dict[int, PointAt] | None = getattr(self, "_rows", None)
        if found is None:
            found = self._rows = self._read_rows()
        return found.get(id(v))

    def _read_rows(self) -> dict[int, PointAt]:
        out: dict[int, PointAt] = {}
        pairs = [p for p in self.points if p.kind in _KINDS or p.name in {"line", "load"}]
        values = [v for v in self.values if self._electric_kind(v)]
        if not values:
            return out
        self._lists(out, pairs, values)
        rows = [p for p in pairs if p.kind in {"winding", "ground", "legs"}]
        if rows and not out and rows[0].start >= values[0].end:
            self._behind(out, rows, values)
        return out

    def _electric_kind(self, v: Value) -> bool:
        return (
            v.state == "value" and not v.clock and self._kind(v) in {None, "voltage", "current", "resistance"}
        )

    def _lists(self, out: dict[int, PointAt], pairs: list[PointAt], values: list[Value]) -> None:
        """Give a list of values the list of points that stands right behind it, one by one."""
        for group in self.groups:
            mine = [v for v in group if v in values]
            if len(mine) < 2 or len(mine) != len(group):
                continue
            row: list[PointAt] = []
            at = mine[-1].end
            for p in pairs:
                if p.start < at:
                    continue
                gap = self.words[at : p.start]
                allowed = word_list("rows_of_points_leads") if not row else {",", "and", "the", "side"}
                if len(gap) > 3 or not set(gap) <= allowed:
                    break
                row.append(p)
                at = p.end
            if len(row) == len(mine) and len({p.name for p in row}) == len(row):
                out.update((id(v), p) for v, p in zip(mine, row, strict=True))
            elif len(mine) == 2 and not row:
                self._both_sides_of(out, mine)

    def _both_sides_of(self, out: dict[int, PointAt], two: list[Value]) -> None:
        """Read "209 and 207, in and out of the contactor": the line side and the load side."""
        after = [w for w in self.words[two[-1].end : two[-1].end + 5] if w != ","]
        if after[:3] != ["in", "and", "out"] or max(v.value for v in two) < 18:
            return
        for v, side in zip(two, ("line", "load"), strict=True):
            out[id(v)] = PointAt(v.end, v.end, side, "point", frozenset({"voltage"}))

    def _behind(self, out: dict[int, PointAt], rows: list[PointAt], values: list[Value]) -> None:
        """Give each value the pair behind it when the row begins with a value: "7.9 common to run"."""
        found: dict[int, PointAt] = {}
        for k, v in enumerate(values):
            stop = values[k + 1].start if k + 1 < len(values) else self.last
            between = [p for p in rows if v.end <= p.start and p.end <= stop]
            if len(between) != 1 or not set(self.words[v.end : between[0].start]) <= word_list(
                "rows_of_points_leads"
            ) - {","}:
                if found:
                    break
                if any(p.start >= v.end and p.end <= stop for p in rows):
                    return
                continue
            found[id(v)] = between[0]
        if len(found) >= 2:
            out.update(found)


__all__ = ["RowsOfPoints"]
