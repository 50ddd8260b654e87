"""The refrigerant of a machine that was changed to another one, and gases of machines that are nobody's here."""

from __future__ import annotations

import pytest

from dictate.mentions.narration import segments_of
from dictate.pipeline import read
from dictate.record.visit import Clip, Record


def record_of(text: str) -> Record:
    return read([Clip(id="c1", file="n.txt", sha256="0" * 64)], list(segments_of([text], "c1")))


def moved(text: str) -> list[tuple[str, str | None, bool]]:
    return [(m.direction, m.refrigerant, bool(m.review)) for m in record_of(text).refrigerant]


@pytest.mark.parametrize(
    ("told", "now"),
    [
        ("Walk-in freezer. It was a 404A plant until the conversion, the lid says 448A.", "R-448A"),
        ("Milk vat. Born on R-22 and somebody changed her to 438A years ago.", "R-438A"),
        ("Truck unit. Door says R-404A but that got swapped to R. 452A two years back.", "R-452A"),
        ("Rooftop unit. It was converted from R-22 to R-407C in 2015.", "R-407C"),
        ("Prep table. Used to be a 134a machine, now it runs on 513A.", "R-513A"),
        ("Reach-in. Tag still reads R-12. It has 134a in it now.", "R-134a"),
        ("Rooftop unit, was on R22 till somebody put 407C in it in 2016.", "R-407C"),
        ("Walk-in on 448A, a drop-in for the 404A it came with.", "R-448A"),
        ("Cold room. Plate says 404A. It's been on 449A since the spring.", "R-449A"),
    ],
)
def test_what_it_ran_on_before_is_in_it_no_longer(told: str, now: str) -> None:
    text = f"{told} Recovered four pounds. New drier brazed in. Charged five pounds two ounces."
    assert moved(text) == [("recovered", now, False), ("charged", now, False)]
    assert [e.refrigerant for e in record_of(text).equipment] == [now]


@pytest.mark.parametrize(
    "told",
    [
        "Walk-in cooler, 448A. The reach-in beside it is 134a and I had that one last week.",
        "Walk-in cooler, R-448A. The sticker of the drum says R-448A as well.",
        "Rack B, 448A. The parts counter tried to sell me 404A for it.",
    ],
)
def test_another_gas_that_is_only_named_changes_nothing(told: str) -> None:
    assert moved(f"{told} Recovered four pounds from the first one.")[0][1] == "R-448A"


def test_a_change_that_may_be_of_today_is_asked_about() -> None:
    text = "Rooftop unit, R-22. Pulled 4 pounds of the R-22, converting it to 407C. Weighed in 3 pounds 12 ounces."
    assert moved(text) == [("recovered", "R-22", False), ("charged", "R-407C", True)]
    text = "Rooftop unit, R-22. Converted it to 407C. Recovered 4 pounds. Charged 3 pounds 12 ounces."
    assert moved(text) == [("recovered", "R-22", True), ("charged", "R-407C", True)]


def test_a_machine_that_is_none_of_this_visit_takes_no_amount() -> None:
    text = (
        "Glycol chiller, R-404A. The keg cooler beside it is R-290 and the other skid is 448A, neither one's mine. "
        "Recovered three pounds two ounces. Suction is forty one."
    )
    record = record_of(text)
    assert [e.refrigerant for e in record.equipment] == ["R-404A"]
    assert [m.refrigerant for m in record.refrigerant] == ["R-404A"]
    assert len({r.equipment for r in record.readings}) == 1
    ours = "Glycol chiller, R-404A. Suction is forty one. Second machine, the keg cooler, R-290. Charged two ounces."
    assert [e.refrigerant for e in record_of(ours).equipment] == ["R-404A", "R-290"]


def test_r_with_a_full_stop_is_a_refrigerant() -> None:
    text = "Two package units, R. 22 in both of 'em, three ton. Suction sixty six. Put in a pound."
    assert moved(text) == [("charged", "R-22", False)]


def test_a_machine_that_is_going_over_to_another_gas_gets_it() -> None:
    text = (
        "Walk-in cooler, R-22. Going over to four twenty-two D. Recovered twelve pounds of the R-22. "
        "Charged ten pounds fourteen ounces."
    )
    assert moved(text) == [("recovered", "R-22", False), ("charged", "R-422D", True)]


def test_a_change_of_which_neither_gas_can_be_told_is_asked_about() -> None:
    text = "Glycol chiller. R-22 and R-427A stand on the door, it was retrofitted. Recovered four pounds."
    assert [doubted for _, _, doubted in moved(text)] == [True]
    assert moved("Glycol chiller, R-22. The drum is R-427A. Recovered four pounds.") == [
        ("recovered", "R-22", False)
    ]
