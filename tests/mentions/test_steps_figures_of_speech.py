"""Steps: figures of speech, other people's matters, denials in few words, and near misses of each."""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text

TOLD = [
    ("No brazing, not one fitting brazed today.", "brazed", "not_done"),
    ("Soldering, none.", "brazed", "not_done"),
    ("Flare fittings all round, so nothin's brazed.", "brazed", "not_done"),
    ("Zero recovered, it was flat.", "refrigerant_recovered", "not_done"),
    ("Nae leak check.", "leak_checked", "not_done"),
    ("Woulda sniffed the joints, didn't.", "leak_checked", "not_done"),
    ("The job's in the diary for the ninth: recover, braze with nitrogen, charge.", "brazed", "planned"),
    (
        "The job's in the diary for the ninth: recover, braze with nitrogen, charge.",
        "nitrogen_purged",
        "planned",
    ),
    ("I didn't plug it in, no chance. New cord. Plugged it in, it ran.", "power_restored", "done"),
    ("Strainer got the hose.", "cleaned", "done"),
    ("It needed no parts only a wash of the condenser.", "cleaned", "done"),
    ("Blew the spiders out of the panel with nitrogen.", "cleaned", "done"),
    ("Timer's set for forty minutes, changed that to thirty.", "adjusted", "done"),
    ("Snugged the grub screws on the pulley.", "adjusted", "done"),
    ("Put nitrogen in. Standing pressure the same after an hour.", "pressure_tested", "done"),
    ("Pinched the process tube off and put the cap on the port.", "ports_capped", "done"),
    ("Topped it up with eight ounces.", "charged", "done"),
    ("Unplugged and cleaned the condenser.", "power_isolated", "done"),
    ("Recovered to zero, two pounds in the jug.", "refrigerant_recovered", "done"),
]

NOT_TOLD = [
    ("The belt was burnt in half.", "brazed", "done"),
    ("I charged my drill and had a bite.", "charged", "done"),
    ("Topped up my thermos.", "charged", "done"),
    ("Recharged with a coffee.", "charged", "done"),
    ("The capacitor's shot, the top's all puffed up.", "charged", "done"),
    ("Engine running, battery charging thirteen eight.", "charged", "done"),
    ("Fan gearbox topped up, a hundred mils.", "charged", "done"),
    ("Recovered to setpoint in half an hour.", "refrigerant_recovered", "done"),
    ("Brazed the stub shut, no ports to cap.", "ports_capped", "done"),
    ("Oil around the valve cap on the liquid line.", "ports_capped", "done"),
    ("Main breaker in off.", "power_restored", "done"),
    ("I didn't plug it in, no chance. New cord. Plugged it in, it ran.", "power_restored", "not_done"),
    ("The probe was green so I unplugged and cleaned it.", "power_isolated", "done"),
    ("Winding's open, ohm meter says nothing.", "absence_of_voltage_verified", "done"),
    ("Blew the spiders out of the panel with nitrogen.", "nitrogen_swept", "done"),
    ("Supposed to hit four hundred microns, hit two fifty.", "evacuated", "planned"),
]


def steps(text: str) -> set[tuple[str, str]]:
    return {(s.step, s.status) for s in read_text(text).steps}


@pytest.mark.parametrize(("text", "step", "status"), TOLD, ids=lambda v: str(v)[:40])
def test_is_told(text: str, step: str, status: str) -> None:
    """What a few words say is taken, with what became of it."""
    assert (step, status) in steps(text)


@pytest.mark.parametrize(("text", "step", "status"), NOT_TOLD, ids=lambda v: str(v)[:40])
def test_is_not_told(text: str, step: str, status: str) -> None:
    """What is only a way to speak, or of something else, is no step."""
    assert (step, status) not in steps(text)
