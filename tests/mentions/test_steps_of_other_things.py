"""What is dead, closed or off and no step; denials that a later doing ends; steps in a foreigner's words."""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text

NOT_TOLD = [
    ("Pulled the disconnect. Lid off. Top off. The cap is swollen.", "charged", "done"),
    ("Breaker off. Drain heater's dead, open.", "absence_of_voltage_verified", "done"),
    ("Unplugged it. Run capacitor had 1.1 on it, so that's dead.", "absence_of_voltage_verified", "done"),
    ("Vacuum cleaner through the condenser. The circuit stays closed.", "vacuum_held", "done"),
    ("Gauges off. No leaks searched for today.", "leak_checked", "done"),
    ("Client says it hums since the spring cleaning.", "cleaned", "not_done"),
    ("The brine is freezing at minus nine now.", "adjusted", "done"),
    ("The pump would not get under two thousand microns, the hose was bad. Other hose, then it pulled to 290 microns.",
     "evacuated", "not_done"),
    ("No flame until the sniffer was quiet. Brazed the stub in.", "brazed", "not_done"),
    ("The chef told to me that it drips.", "customer_informed", "done"),
    ("The owner told us it trips at night.", "customer_informed", "done"),
    ("None of the machines got any gas.", "refrigerant_recovered", "not_done"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "step", "status"), NOT_TOLD, ids=lambda v: str(v)[:40])
def test_is_not_taken(text: str, step: str, status: str) -> None:
    """What was said of something else is no step."""
    assert (step, status) not in {(s.step, s.status) for s in read_text(text).steps}


TOLD = [
    ("Killed the breaker. Contactor's dead on all three.", "absence_of_voltage_verified", "done"),
    ("Isolator off, it's dead. Changed the relay.", "absence_of_voltage_verified", "done"),
    ("Killed the breaker, metered the contactor, so that's dead.", "absence_of_voltage_verified", "done"),
    ("Closed the pump off at 310 microns, ten minutes, 340.", "vacuum_held", "done"),
    ("Gauges off. No leaks searched for today.", "leak_checked", "not_done"),
    ("Joints soaped, no leaks.", "leak_checked", "done"),
    ("None of the machines got any gas.", "charged", "not_done"),
    ("Walk-in first. No brazing on that one, a door switch only, and the box was at 38 when I left it. Coil "
     "was clean and the drain ran and the door was fine. The ice machine had a leak, brazed the joint.",
     "brazed", "not_done"),
    ("I set the fail-safe down from fifty to thirty-five.", "adjusted", "done"),
    ("Set the overload down to eighteen, same as the plate.", "adjusted", "done"),
    ("It was set for 90 minutes, I cut that back to 45.", "adjusted", "done"),
    ("The stat was out by three degrees and I trimmed it.", "adjusted", "done"),
    ("I set the bridge a touch thicker.", "adjusted", "done"),
    ("Boss got the talk about the drain.", "customer_informed", "done"),
    ("Butcher has understood.", "customer_informed", "done"),
    ("Covers on, baker told to keep the door shut tomorrow.", "customer_informed", "done"),
    ("The condenser wants a wash, I said it to her.", "customer_informed", "done"),
    ("Isolator off. Relay changed. Then supply given.", "power_restored", "done"),
    ("Fan capacitor at 2.9, changed it. I shorted it first.", "capacitor_discharged", "done"),
    ("Capacitor, marked five micro, I discharge and measure, 1.9.", "capacitor_discharged", "done"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "step", "status"), TOLD, ids=lambda v: str(v)[:40])
def test_is_taken(text: str, step: str, status: str) -> None:
    """The same words where they do tell the step, and other ways to tell one."""
    assert (step, status) in {(s.step, s.status) for s in read_text(text).steps}
