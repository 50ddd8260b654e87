"""Parts that are only described, looked at, opened or sealed with, and cores of driers."""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text

PARTS = [
    ("Ice cream store, ceiling mounted evaporator.", []),
    ("Mounted the evaporator on new brackets.", [("evaporator coil", "replaced")]),
    ("Sensor changed. Harness also tested, all good.", [("temperature sensor", "replaced")]),
    ("Contactor replaced. Overload too.", [("contactor", "replaced"), ("overload", "replaced")]),
    ("Port cap on with a new seal.", []),
    ("Caps on. Closed it up with a new gasket.", [("gasket", "replaced")]),
    ("New seal on the pump.", [("seal", "replaced")]),
    ("Compressor cover I have removed and the windings are measured.", []),
    ("Filter I have cleaned.", [("air filter", "cleaned")]),
    ("Top of it read ninety two with the pocket probe. Brushed it off.", []),
    ("Probe in the box was dead. Swapped it.", [("temperature sensor", "replaced")]),
    ("New filter drier core.", [("filter drier", "replaced")]),
    ("A new core drier and two valve cores.", [("filter drier", "replaced"), ("valve core", "replaced")]),
]


@pytest.mark.parametrize(("text", "parts"), PARTS, ids=lambda v: str(v)[:40])
def test_parts(text: str, parts: list[tuple[str, str]]) -> None:
    """Only what was handled is listed, by its own name."""
    assert [(p.name, p.action) for p in read_text(text).parts] == parts
