"""The bare numbers of a row that repeats the kinds of the row before it; whose/rows_of_kinds.py finds it.

A link of the chain of classes that read one sentence.
"""

from __future__ import annotations

from dictate.mentions.roles.compared import Compared
from dictate.mentions.values import Value
from dictate.mentions.whose.rows_of_kinds import row_before
from dictate.mentions.whose.taken import Link


class RowsOfKinds(Compared):
    """Tells the bare numbers of a row by the row before that had the same kinds in the same order."""

    def _row_once_more(self, v: Value, group: list[Value]) -> Link | None:
        """Return what the counterpart of a number in the row before was a value of."""
        if not v.bare or v.clock or v.range or len(group) < 3:
            return None
        begun = [t for t in self.r.found.readings[-3 * len(group) :] if t.end <= group[0].start]
        rows = row_before(begun, group, self.number)
        if not rows:
            return None
        one = rows[group.index(v)]
        link = self._like(v, one)
        if link is not None:
            link.point, link.how = one.reading.point, "row"
            link.component = one.reading.component
        return link


__all__ = ["RowsOfKinds"]
