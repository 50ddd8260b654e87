"""How a machine was found and how it was left, told under words of the speaker's own and in any order."""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text

LEFT = "low side sixty-four pounds, head two fifteen, supply air fifty-six. Compressor sixteen amps."
FOUND = "suction twenty-eight, head one thirty, supply air seventy-one."
WORK = (
    "Pulled the disconnect. Recovered three pounds. New filter drier brazed in with nitrogen. "
    "Charged six pounds. Caps on."
)


def stages(*lines: str) -> dict[float, str | None]:
    record = read_text("\n".join(lines))
    wanted = (64, 215, 56, 16, 28, 130, 71)
    return {r.value: r.stage for r in record.readings if r.role == "measured" and r.value in wanted}


@pytest.mark.parametrize(
    ("left", "found"),
    [
        ("How I left it:", "How I found it:"),
        ("Finished numbers first,", "Now backwards. What I found was"),
        ("My final numbers first,", "How we found it:"),
    ],
)
def test_the_result_is_told_first(left: str, found: str) -> None:
    said = stages("Split system at the hall.", f"{left} {LEFT}", f"{found} {FOUND}", WORK)
    assert {said[v] for v in (64, 215, 56, 16)} == {"as_left"}
    assert {said[v] for v in (28, 130, 71)} == {"as_found"}


def test_in_the_order_of_the_work() -> None:
    said = stages("Split system at the hall.", f"How I found it: {FOUND}", WORK, f"How I left it: {LEFT}")
    assert {said[v] for v in (28, 130, 71)} == {"as_found"}
    assert {said[v] for v in (64, 215, 56, 16)} == {"as_left"}


def test_what_was_found_ends_with_the_work() -> None:
    said = stages("Split system at the hall.", f"What I found was {FOUND} {WORK} Running again, {LEFT}")
    assert {said[v] for v in (28, 130, 71)} == {"as_found"}
    assert "as_found" not in {said[v] for v in (64, 215, 56)}
