"""How far a quantity and its unit carry: assumed units, lists that go on, the test under way.

Links of the chain of classes that read one sentence; `readings.py` holds its end and its order.

    assumed          the unit that a bare number has in this visit, and which values are alike
    under_test       which bare numbers a test under way goes on with
    lists            how far the values of a list carry: asks the two above
"""

from __future__ import annotations

from dictate.mentions.units_carried.lists import UnitsCarried

__all__ = ["UnitsCarried"]
