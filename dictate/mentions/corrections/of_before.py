"""Takes back a value that a later sentence says is of before, where it gives the value of now.

of_before(taken)

"Suction 102 ... no, suction was 112, 102 was last month's."    102 is taken back for 112
"Suction 102. Last month it was 102 as well."                   both stand: none is in its place
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.whose.taken import Taken

_SENTENCES = 6
"""Sentences between a value and the one that says that it is of before."""


def of_before(taken: Sequence[Taken]) -> None:
    """Mark as taken back, in place, what is told again as earlier beside another value of the same place."""
    for k, earlier in enumerate(taken):
        if earlier.reading.role != "earlier" or earlier.reading.value is None:
            continue
        for t in reversed(taken[:k]):
            if earlier.sentence - t.sentence > _SENTENCES:
                break
            if not _same_place(t, earlier) or t.reading.value != earlier.reading.value:
                continue
            now = next(
                (
                    n
                    for n in taken
                    if abs(n.sentence - earlier.sentence) <= 1
                    and n.start > t.end
                    and _same_place(n, earlier)
                    and n.reading.value not in (None, t.reading.value)
                ),
                None,
            )
            if now is not None:
                t.reading.role = "retracted"
                now.reading.retracts = t.reading.heard
                now.reading.review.append(
                    f"'{t.reading.heard}' was said of it before, and is of an earlier time"
                )
            break


def _same_place(t: Taken, earlier: Taken) -> bool:
    one, two = t.reading, earlier.reading
    same = (one.quantity, one.unit, one.point, one.component) == (
        two.quantity,
        two.unit,
        two.point,
        two.component,
    )
    return same and one.role == "measured"
