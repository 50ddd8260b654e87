"""Which part a value was measured on, the one that came out or the one that went in."""

from __future__ import annotations

from typing import Literal

from dictate.mentions.stages.phrases import at_word, by_first

_Stage = Literal["as_found", "as_left"]
_WHY_REACH = 30  # words from "because the old one ..." to a value that tells why


def which_part(row: tuple[str, ...], begun: int, first: int) -> _Stage | None:
    """Read which part was measured: "the old one read 31", "on the new one 0.45"."""
    left_by, found_by = by_first("left_part"), by_first("found_part")
    for i in range(first - 1, max(begun, first - 8) - 1, -1):
        if row[i] in (";", "."):
            break
        if row[i] not in left_by and row[i] not in found_by:
            continue
        left, found = at_word(row, i, "left_part"), at_word(row, i, "found_part")
        if (left or found) and i + max(len(left), len(found)) <= first:
            return "as_left" if len(left) > len(found) else "as_found"
    return _why_it_went(row, first) or _that_went_in(row, begun, first)


def _why_it_went(row: tuple[str, ...], first: int) -> _Stage | None:
    """Read why a part was renewed: "because the old one was stuck and it still read 0.2"."""
    if "it" not in row[max(0, first - 4) : first]:
        return None
    for i in range(first - 1, max(0, first - _WHY_REACH), -1):
        if row[i] in (".", "?", "!") or row[i] == "new":
            return None
        if row[i] in ("because", "since") and at_word(row, i + 1, "found_part"):
            return "as_found"
    return None


def _that_went_in(row: tuple[str, ...], begun: int, first: int) -> _Stage | None:
    """Read a part that went in just before: "a spare motor went in and that one draws 0.8"."""
    led = row[max(begun, first - 5) : first]
    if not any(led[k : k + 2] == ("that", "one") for k in range(len(led))):
        return None
    before = row[begun:first]
    went = any(
        before[k : k + 2] in (("went", "in"), ("put", "in"), ("goes", "in")) for k in range(len(before))
    )
    return "as_left" if went else None
