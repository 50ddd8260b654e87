"""Values of a former visit that are read out beside those of today.

    settle_former_records(narration, mentions)

"I've got last year's sheet next to me. Head one fifty-eight then, one seventy-four now. Suction thirty-three,
was thirty-eight. Superheat nine, nine.": once a paper of before was named and a value taken from it, the
partner of a value of today is of before as well, as long as nothing was worked on. Without such a paper
"was 38" is how it was found today.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from dictate.mentions.narration import Narration
from dictate.mentions.patterns import NUMBER_WORDS, words_of
from dictate.mentions.stages.told import places_of
from dictate.mentions.whose.taken import READ_NOW_BY_WORDS
from dictate.mentions.word_lists import phrase_at, word_list
from dictate.record.mentions import Mentions
from dictate.record.visit import Reading

_WORK = frozenset(
    {"part_replaced", "filter_drier_replaced", "charged", "cleaned", "adjusted", "refrigerant_recovered"}
)
_REACH = 9  # words between the two values of a pair
_DAYS = frozenset({"year", "year's", "time", "visit", "service", "month", "may"})

Placed = tuple[int, int, Reading]


def settle_former_records(narration: Narration, mentions: Mentions) -> None:
    """Give the role `earlier` to the values of a former record that stand beside values of today."""
    words = words_of(narration)
    row = words.words
    if not {"last", "sheet", "report", "log", "ago", "figures", "numbers", "in", "previous"} & set(row):
        return
    named = [i for i in range(len(row)) if phrase_at("former_records", row, i)]
    if not named:
        return
    placed = [(f, _end(row, e), x) for f, e, x in places_of(narration, words, mentions.readings)]
    pairs = [(a, b) for a, b in pairwise(placed) if _same(a[2], b[2]) and b[0] - a[1] <= _REACH]
    read_out = [i for i in named if any(-3 <= f - i <= 12 or 0 <= i - e <= 2 for f, e, _ in placed)]
    if not read_out or not pairs:
        return
    begins = read_out[0] - 3
    # One value of before beside the same of today says how the others are read out as well.
    if not any(
        _told_before(row, a, b) or {a[2].role, b[2].role} == {"measured", "earlier"} for a, b in pairs
    ):
        return
    ends = min((w for w in _works(narration, mentions) if w > begins), default=len(row))
    order = 0
    for a, b in pairs:
        if a[0] < begins - 12:
            continue
        if _told_before(row, a, b) or (b[0] < ends and _was_and_now(row, a, b)):
            order = 1
            _earlier(a[2])
        elif b[0] < ends and _was_before(row, a, b):
            _earlier(b[2])
        elif order and b[0] < ends and _bare_pair(row, a, b) and not _third(placed, b):
            _earlier(a[2])


def _end(row: Sequence[str], end: int) -> int:
    """Return the end of a number that was written with hyphens ("thirty-eight": one word)."""
    while end < len(row) and row[end - 1] in NUMBER_WORDS and row[end] in NUMBER_WORDS:
        end += 1
    return end


def _same(a: Reading, b: Reading) -> bool:
    if a.quantity != b.quantity or {a.role, b.role} - {"measured", "earlier", "target"}:
        return False
    return a.point == b.point and a.equipment == b.equipment and a.relation == b.relation


def _told_before(row: Sequence[str], a: Placed, b: Placed) -> bool:
    """Tell whether A is told of before and B of today: "158 then, 174 now", "38 last year, 37 now"."""
    behind = row[a[1] : a[1] + 3]
    outside = [
        w for w in behind if w not in {"outside", "out", "in", "here", "degrees", "psi", "bar", "amps"}
    ]
    if not outside or outside[0] not in word_list("former_behind"):
        return False
    if outside[0] == "last" and (len(outside) < 2 or outside[1] not in _DAYS):
        return False
    now = {*row[a[1] : b[0]], *row[b[1] : b[1] + 2]}
    return bool(now & word_list("former_now"))


def _was_before(row: Sequence[str], a: Placed, b: Placed) -> bool:
    between = [*row[a[1] : b[0]], *row[b[0] : b[1]]]
    if not set(between) & word_list("former_was"):
        return False
    gap = row[a[1] : b[0]]
    return (
        0 < len(gap) <= 5
        and set(gap) <= word_list("former_was_between")
        and bool(set(gap) & word_list("former_was"))
    )


def _was_and_now(row: Sequence[str], a: Placed, b: Placed) -> bool:
    """Tell whether A was and B is: "head was 210, now it's 205"."""
    front = row[max(0, a[0] - 2) : a[1]]
    return bool(set(front) & word_list("former_was")) and "now" in row[a[1] : b[0]] and b[0] - a[1] <= 5


def _bare_pair(row: Sequence[str], a: Placed, b: Placed) -> bool:
    """Tell whether two values stand bare after a name: "superheat nine, nine"."""
    return (
        list(row[a[1] : b[0]]) == [","]
        and list(row[b[1] : b[1] + 1]) in ([], ["."])
        and a[2].quantity
        in {
            "superheat",
            "subcooling",
        }
    )


def _third(placed: Sequence[Placed], b: Placed) -> bool:
    return any(b[1] <= f <= b[1] + 1 for f, _, _ in placed)


def _works(narration: Narration, mentions: Mentions) -> list[int]:
    words = words_of(narration)
    out = []
    for step in mentions.steps:
        if step.step in _WORK and step.status == "done":
            tokens = narration.tokens_of(step.at.segment or 0, step.at.first_word or 0)
            if tokens is not None and (at := words.word_of_token(tokens.start)) is not None:
                out.append(at)
    return out


def _earlier(reading: Reading) -> None:
    if reading.role == "target" or (reading.role == "earlier" and reading.stage is None):
        return
    reading.role = "earlier"
    reading.stage = None
    reading.review = [r for r in reading.review if not r.startswith(READ_NOW_BY_WORDS)]


__all__ = ["settle_former_records"]
