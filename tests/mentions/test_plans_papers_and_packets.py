"""What a plan, another man's paper, a packet or a drawing says is not measured; and figures of speech are no work.

The sentences are our own.
"""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text
from tests.mentions.case_files import readings

ROLES = [
    # what a band allows, and a window that is none
    ("The label says 460 volts, window is 414 up to 506. I have 471 volts.",
     ["rated", "target", "target", "measured"]),
    ("The air at the window is 38 degrees.", ["measured"]),
    # where it should land, and where it did
    ("Subcooling should land at 12, lands at 9.", ["target", "measured"]),
    # packets, drawings, a machine that is named by its volts
    ("Fan motor box reads 3.2 amps, it's running 2.9 amps.", ["rated", "measured"]),
    ("Box reads 39 degrees.", ["measured"]),
    ("The schematic says eighteen ohms a rod. Top rod reads 18.4 ohms.", ["target", "measured"]),
    ("Line voltage 204 volts, 208 machine, needs at least 187 volts.", ["measured", "rated", "target"]),
    ("Line voltage 204 volts. 208 volts at the machine next door.", ["measured", "measured"]),
    # where one would begin again
    ("Vacuum is at 410 microns. Nine hundred microns, that's when I start over.", ["measured", "target"]),
    # what it will be by then, what somebody says since when, where an operating map ends
    ("They'll load at noon tomorrow, by then 36 degrees.", ["expected"]),
    ("By then it was 36 degrees.", ["measured"]),
    ("Customer is telling 15 degrees since yesterday.", ["earlier"]),
    ("The envelope quits at 131 degrees. Leaving water is 118 degrees.", ["target", "measured"]),
    # another man's paper
    ("Per his slip, he pulled to 320 microns, held at 380 microns. Suction is 128 psi.",
     ["earlier", "earlier", "measured"]),
    ("Going by my slip I read 320 microns.", ["measured"]),
]  # fmt: skip


@pytest.mark.parametrize(("text", "roles"), ROLES)
def test_not_measured(text: str, roles: list[str]) -> None:
    assert [r.role for r in readings(text)] == roles


PLAN = (
    "Back on Monday, here's the plan. Recover the gas, saw the header out, new one brazed in with nitrogen flowing, "
    "250 pounds of nitrogen for half an hour, pump to under 500 microns. Then nine pounds goes back in by weight."
)


def test_a_plan_that_names_what_will_have_been_done() -> None:
    record = read_text(PLAN)
    assert record.steps
    assert {s.status for s in record.steps} == {"planned"}
    assert {r.role for r in record.readings} <= {"expected"}
    assert not record.refrigerant


TOLD = [
    ("Gave it a suds bath at 150 psi.", "leak_checked", "done"),
    ("Passed the sniffer over every joint.", "leak_checked", "done"),
    ("Brought the screw up half a turn.", "adjusted", "done"),
    ("Locked nothing out.", "power_isolated", "not_done"),
    ("Ran the scale off the plate with descaler.", "cleaned", "done"),
    ("The owner got the tour.", "customer_informed", "done"),
    ("Week after next is when it gets opened. Reclaim, drier, vacuum.", "evacuated", "planned"),
    ("None of that has happened so far, nothing is touched. Brazed the joint.", "brazed", "done"),
    ("Here's the plan for Monday. Opened it up and I brazed the joint.", "brazed", "done"),
]

NOT_TOLD = [
    ("Gave it a bubble bath at 150 psi.", "cleaned", "done"),
    ("Vacuumed out what it had into the tank, eight pounds.", "cleaned", "done"),
    ("Brought the screw up half a turn.", "power_restored", "done"),
    ("Seven hundred microns. Back on, 340 microns, 10 minutes, 365.", "power_restored", "done"),
    ("The fan motor ran and head was bumping one ninety.", "adjusted", "done"),
    ("Per their ticket, he brazed the suction line.", "brazed", "done"),
]


@pytest.mark.parametrize(("text", "step", "status"), TOLD)
def test_told(text: str, step: str, status: str) -> None:
    assert (step, status) in [(s.step, s.status) for s in read_text(text).steps]


@pytest.mark.parametrize(("text", "step", "status"), NOT_TOLD)
def test_not_told(text: str, step: str, status: str) -> None:
    assert (step, status) not in [(s.step, s.status) for s in read_text(text).steps]


def test_a_plate_behind_a_correction_is_no_correction() -> None:
    record = read_text("I got 5 pounds, no wait, 5.6 pounds out of it, the plate's 7.1.")
    assert [(m.direction, m.value) for m in record.refrigerant] == [("recovered", 5.6)]
