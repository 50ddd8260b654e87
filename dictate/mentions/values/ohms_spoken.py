"""Whether ohms are spoken of: "pulled the plug before anything with ohms" tells only when it was pulled."""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.word_lists import word_list

_LATER = frozenset(("before", "until", "till"))
_GOES_ON = frozenset((".", ",", ";", "?", "!", "and", "then"))


def speaks_of_ohms(words: Sequence[str]) -> bool:
    """Tell whether words speak of windings and ohms now, and not of when they will be measured."""
    later = False
    for word in words:
        later = word in _LATER or (later and word not in _GOES_ON)
        if not later and word in word_list("values_ohms_talk"):
            return True
    return False


__all__ = ["speaks_of_ohms"]
