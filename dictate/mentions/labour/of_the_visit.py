"""Hours said of a sheet or of the visit itself: "invoice says two hours", "it was a four hour ticket"."""

from __future__ import annotations

from itertools import pairwise

from dictate.mentions.patterns import NUMBER_WORDS
from dictate.vocabulary.load import word_set


def on_a_sheet(lead: tuple[str, ...]) -> bool:
    """Tell whether nothing but a sheet of hours, and what one says of it, leads to a duration."""
    sheets, small = word_set("on_the_sheet", "labour"), word_set("said_of_a_sheet", "labour")
    said = [
        w for w in lead if w not in NUMBER_WORDS and not w[:1].isdigit() and w not in (",", "till", "until")
    ]
    written = any(w in sheets for w in said) or ("down", "as") in pairwise(said)
    return written and all(w in sheets or w in small for w in said)


def on_the_bill(rest: tuple[str, ...]) -> bool:
    """Tell whether the words behind a duration put it on the bill: "three hours on the bill"."""
    n = next((k for k, w in enumerate(rest) if w in (".", ",", ";", "and", "plus")), len(rest))
    return 1 < n <= _BILL and rest[0] == "on" and rest[n - 1] in word_set("billing", "labour")


_BILL = 4
"""Words of "on the" and what the bill is called."""


def called_by_its_hours(lead: tuple[str, ...], unit: str, rest: tuple[str, ...], late: bool) -> bool:
    """Tell whether a visit is called by its hours: "that made it a six hour day".

    "A four hour job" alone may be an estimate; it has to be told of this visit, or stand
    where one is summed up.
    """
    if unit != "hour" or rest[:1] == () or rest[0] not in word_set("called_by_its_hours", "labour"):
        return False
    if word_set("not_become", "labour") & set(lead) or lead[-1:] not in (("a",), ("an",), ()):
        return False
    if {"was", "made", "became", "turned", "ended"} & set(lead):
        return True
    return late and set(lead) <= word_set("before_hours_of_a_visit", "labour")


def roughly(rest: tuple[str, ...]) -> bool:
    """Tell whether only words of estimating or summing up follow a duration: "near enough", "all in"."""
    told = word_set("roughly", "labour")
    return len(rest) > 0 and all(w in told for w in rest) and rest not in _NOT_ALONE


_NOT_ALONE = (("in",), ("up",), ("so",), ("all",))
