"""Values of a former visit that are read out beside those of today."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of

ROLES = [
    ("I have last year's sheet. Suction 38 last year, 37 now. Head 158 then, 174 now. Superheat nine, nine.",
     ["earlier", "measured"] * 3),
    ("Sheet from May says 3.1 in the room, today 3.4. Discharge 8.6 bar, was 7.4 but it was 16 degrees outside "
     "then, it's 24 now.", ["earlier", "measured", "measured", "earlier", "earlier", "measured"]),
    ("Last visit in June suction was 30, now it's 28. Head was 210, now it's 205.", ["earlier", "measured"] * 2),
    ("Amps last time were 8.1, today 8.3. Head 210, was 205. Changed the filter. Supply air 55, was 58.",
     ["earlier", "measured", "measured", "earlier", "measured", "measured"]),
    ("Last sheet has suction at 3.4 bar, I read 2.9. Cleaned the coil. Suction 3.3, was 2.9.",
     ["earlier", "measured", "measured", "measured"]),
    ("Head was 310 when I got here, 240 now.", ["measured", "measured"]),
]  # fmt: skip


@pytest.mark.parametrize(("text", "roles"), ROLES)
def test_read_out_beside_today(text: str, roles: list[str]) -> None:
    assert [r.role for r in find(list(segments_of([text], "c1"))).readings] == roles
