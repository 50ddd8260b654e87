"""The part and the side of volts of a control circuit that is walked along with one probe."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from dictate.mentions.by_all_words.words_taken import tokens_at
from dictate.mentions.narration import Narration
from dictate.mentions.values.control_chains import chain_noughts, find_chain
from dictate.record.visit import Reading


def settle_chain(narration: Narration, readings: Sequence[Reading], placed: Mapping[int, int]) -> None:
    """Put the part and the side of volts of a control circuit right; `placed` gives the number of each."""
    chain = find_chain(narration)
    if not chain:
        return
    noughts = {start for start, _ in chain_noughts(narration)}
    for i, reading in enumerate(readings):
        start = placed.get(i, -1)
        if start not in chain and reading.value == 0:
            start = next((t for t in tokens_at(narration, reading.at) if t in noughts), -1)
        step = chain.get(start)
        if step is None or reading.quantity != "voltage":
            continue
        if step.component is not None and step.component != reading.component:
            reading.component, reading.which = step.component, None
        reading.point = step.point


__all__ = ["settle_chain"]
