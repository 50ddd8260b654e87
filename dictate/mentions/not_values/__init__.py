"""Numbers that are no value of anything measured: names, clock times, dates, counts, sizes, places.

`kept_out(narration)` gives the token spans with a plain reason each. A number in such a span is never a bare
reading; one with a unit said is still looked at, except inside a model, serial or part number
(`identity_spans`).
"""

from dictate.mentions.not_values.identities import identity_spans
from dictate.mentions.not_values.kept_out import kept_out

__all__ = ["identity_spans", "kept_out"]
