"""Transcript -> mentions: numbers, readings, movements, steps, parts, machines, as said.

    find(segments) -> Mentions

Nothing here looks further than the words: which machine a reading belongs to, before or after the repair, and
what is missing is decided by the stages behind.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.record.mentions import Mentions
from dictate.record.transcript import Segment


def find(segments: Sequence[Segment]) -> Mentions:
    """Return everything that the segments of one visit mention, each list in the order of the words."""
    from dictate.mentions.narration import Narration
    from dictate.mentions.readings import find_readings
    from dictate.mentions.self_correction import correct

    narration = Narration(segments)
    mentions = Mentions()
    found = find_readings(narration)
    mentions.readings = correct(narration, found)
    mentions.units = found.units.name
    mentions.units_assumed = found.units.assumed
    return mentions
