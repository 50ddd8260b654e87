"""What a value is: measured, wanted, printed, of another time, a guess; and which of them a person must look at."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of

CASES = tomllib.loads((Path(__file__).parent / "cases" / "roles.toml").read_text(encoding="utf-8"))["case"]


@pytest.mark.parametrize("case", CASES, ids=lambda c: c["text"])
def test_role(case: dict[str, object]) -> None:
    found = find(list(segments_of([str(case["text"])], "c1"))).readings
    got = [
        f"{r.state if r.value is None else f'{r.value:.10g}'} {r.role}{'?' * bool(r.review)}" for r in found
    ]
    wanted = list(case["roles"])  # type: ignore[call-overload]
    assert [x.rstrip("?") for x in got] == [x.rstrip("?") for x in wanted], got
    if case.get("kinds_only"):
        return  # whether a person is asked rests on the trained judge, and moves with it
    for have, want in zip(got, wanted, strict=True):
        # What no check works with may be asked about without need: its kind is told by the words far around.
        assert have == want or (have == f"{want}?" and not want.endswith(("measured", "?")))


def test_a_role_with_a_class_of_words_is_known_with_each_of_them() -> None:
    for sheet in ("chart", "book", "table", "manual"):
        for gives in ("says", "gives", "calls for", "wants"):
            text = f"Head two eighty, the {sheet} {gives} two sixty."
            roles = [r.role for r in find(list(segments_of([text], "c1"))).readings]
            assert roles[0] == "measured", text
            assert "measured" not in roles[1:], text
