"""Plans that are announced anywhere in a sentence, and where the talk returns to what was done."""

from __future__ import annotations

import pytest

from dictate.mentions.narration import Narration
from dictate.mentions.steps import find_steps


def steps_of(text: str) -> dict[str, set[str]]:
    out: dict[str, set[str]] = {}
    for s in find_steps(Narration.from_text(text)):
        out.setdefault(s.status, set()).add(s.step)
    return out


PLANNED = [
    ("The fix from here is: recover, braze the new bend with nitrogen flowing, test at 350.", {"brazed", "nitrogen_purged"}),
    ("I'd have to get the gas out, braze another coil in with nitrogen going through.", {"brazed", "nitrogen_purged"}),
    ("What I'll need on the day is a helper, recover the charge, weigh six pounds back in.", {"charged"}),
    ("Plan is a new header, nitrogen going while I braze, evacuate it to four hundred.", {"brazed", "evacuated"}),
    ("Tuesday's the plan: braze it in so there's no leak left, pressure test it at 300.", {"brazed", "pressure_tested"}),
    ("When the coil lands, we recover it, braze the new one in and charge it.", {"brazed", "charged"}),
    ("First light I come back, throw the breaker in and see how it does.", {"power_restored"}),
    ("So Saturday I recover the charge, braze the bend, evacuate it and charge it with six pounds.", {"brazed", "charged"}),
    ("I'm coming over again Thursday with the part. Recover the gas, braze it in, evacuate it.", {"brazed", "evacuated"}),
    ("It'll want the gas out, a new stub silver-soldered in and a pressure test at 300.", {"brazed", "pressure_tested"}),
    ("Priced it up for him and we quoted him a new coil, braze it in, evacuate and recharge it.", {"brazed"}),
    ("Still ahead of me: coil brazed in with nitrogen flowing, evacuated, caps back on.", {"brazed", "ports_capped"}),
]  # fmt: skip

DONE_AGAIN = [
    ("Next trip it's a new coil, today I put a pound of gas in and put the caps back on.", {"ports_capped"}),
    ("I'd have to braze it. He agreed, so I recovered the charge and brazed the bend.", {"brazed"}),
    ("Friday what's gonna happen is braze the valve in and evacuate it. Disconnect's back in.", {"power_restored"}),
    ("The plan was to wait, then I recovered the charge and brazed the bend.", {"brazed"}),
    ("Tomorrow we braze it, breaker's back on for now.", {"power_restored"}),
    ("My thinking is braze it Monday, but I evacuated it today.", {"evacuated"}),
    ("I'll plug her in. Away she goes.", {"power_restored"}),
    ("Flipped the breaker. 238 volts at the contactor.", {"power_restored"}),
]  # fmt: skip

NOT_DONE = [
    ("Landlord was out, so nobody has been told.", "customer_informed"),
    ("Brazing I have not done, it is all flares.", "brazed"),
    ("Brazing I didn't get to, the torch was empty.", "brazed"),
]

NOTHING = [
    ("Torch on the inlet, heat, rag round it. It runs nice. Other end.", "run_checked"),
    ("Both took, leave the gas running till it goes dull.", "run_checked"),
    ("Opening the gas valve a quarter turn, now all the way.", "adjusted"),
    ("Caps back on, nipped up.", "adjusted"),
    ("Twenty minutes, three hundred on the nose. Letting it down.", "run_checked"),
    ("I can't swap that switch with gas in it because it's sweated in.", "brazed"),
    ("Ends are plugged off with five pounds of nitrogen.", "pressure_tested"),
]


@pytest.mark.parametrize(("text", "codes"), PLANNED, ids=lambda v: v if isinstance(v, str) else "")
def test_what_is_announced_is_planned_to_its_end(text: str, codes: set[str]) -> None:
    got = steps_of(text)
    assert codes <= got.get("planned", set())
    assert not got.get("done")


@pytest.mark.parametrize(("text", "codes"), DONE_AGAIN, ids=lambda v: v if isinstance(v, str) else "")
def test_a_plan_ends_where_work_is_told(text: str, codes: set[str]) -> None:
    assert codes <= steps_of(text).get("done", set())


@pytest.mark.parametrize(("text", "code"), NOT_DONE)
def test_work_denied_in_other_words(text: str, code: str) -> None:
    got = steps_of(text)
    assert code in got.get("not_done", set())
    assert code not in got.get("done", set())


@pytest.mark.parametrize(("text", "code"), NOTHING)
def test_words_of_something_else(text: str, code: str) -> None:
    assert code not in steps_of(text).get("done", set())
