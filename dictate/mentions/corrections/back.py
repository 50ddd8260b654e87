"""What is taken back at a distance.

    "I said 33 on that cap before, it was 31"        a value of before, named by its number
    "the head I gave you was wrong, it's 230"        ... by its name
    "looking at my photo it was twelve, not eleven"  ... by what it was not
    "I had those two the wrong way round"            two values that stand for each other
    "scrap those, wrong setting"                     several values at once

Where it is certain which value is meant, that one is `retracted` and the right one `measured`. Where it is
not, every value that may be meant gets a reason to look.
"""

from __future__ import annotations

from dictate.mentions.corrections.differences import Differences
from dictate.mentions.corrections.named_by_number import NumbersNamed
from dictate.mentions.corrections.recalls import RecalledValues
from dictate.mentions.corrections.sets import ValuesInSets
from dictate.mentions.corrections.swaps import SwappedValues


class Back(RecalledValues, NumbersNamed, SwappedValues, ValuesInSets, Differences):
    """Takes back what later words take back; each shape has a room of its own."""
