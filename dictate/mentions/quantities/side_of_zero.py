"""Tell "below" that is said of zero ("three below at quitting time") from "below" that compares.

`below_zero(words, at)` looks at the lower-case words of a narration from the word behind a number or its
unit. A level is compared with something that is named: "five below the plate", "two below normal", "three
below where it was". Whatever else follows goes on with the story, and the level was counted from zero.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.word_lists import word_list

_ZEROS = frozenset(("zero", "nought", "naught", "0"))

_ALL_OVER = frozenset(("over", "around", "round", "through", "along", "day", "night", "week"))


def below_zero(words: Sequence[str], at: int) -> int | None:
    """Return the end of "below" or "below zero" at a place, None where it says something else."""
    if at >= len(words) or words[at] not in {"below", "under"}:
        return None
    behind = words[at + 1] if at + 1 < len(words) else "."
    if behind in _ZEROS:
        return at + 2
    return at + 1 if words[at] == "below" and not _compared(words, at + 1) else None


def above_zero(words: Sequence[str], at: int) -> bool:
    """Tell whether "above" at a place says that a level lies above zero: "box eleven above"."""
    return words[at : at + 1] == ["above"] and not _compared(words, at + 1)


def _compared(words: Sequence[str], at: int) -> bool:
    """Tell whether the word at a place begins the name of what a level is compared with."""
    if at >= len(words) or not words[at].isalpha():
        return at < len(words) and words[at][:1].isdigit()
    if words[at] == "all" and words[at + 1 : at + 2] != [] and words[at + 1] in _ALL_OVER:
        return False  # "she wants six below all over"
    return words[at] in word_list("compared_with") and words[at + 1 : at + 2] not in (
        ["morning"],
        ["afternoon"],
        ["evening"],
        ["week"],
        ["time"],
    )
