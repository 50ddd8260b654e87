"""Mentions -> record: ids, which machine, which side of the repair, what belongs together.

    compose(mentions, clips, segments, problems) -> Record

Nothing is read from words here, and nothing is guessed: a machine that cannot be told is null, and so is
a stage.
"""

from __future__ import annotations

from dictate.writeup.compose import compose

__all__ = ["compose"]
