"""Part numbers, rows of parts and refused parts as technicians tell of them (common practice)."""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text

NUMBERS = [
    ("Brazed the new compressor and the new drier in. Compressor is part number CP-771-20, drier DF-032.",
     {"compressor": "CP-771-20", "filter drier": "DF-032"}),
    ("New relay and new overload went on, they come as a kit, part number 41-0077.",
     {"relay": "41-0077", "overload": None}),
    ("So out came the board as well, new one is forty-one dash two two nine zero, warranty.",
     {"control board": "41-2290"}),
    ("Sweated the old reversing valve out, new one in with a wet rag, RV-4410 is the number.",
     {"reversing valve": "RV-4410"}),
    ("Hung a new condenser fan motor, Foxtrot Mike one one eight zero.", {"condenser fan motor": "FM1180"}),
    ("Put a new inlet valve on it, W V as in Victor, dash, two oh seven.", {"water inlet valve": "WV-207"}),
    ("Then the new stuff went in, heater DH-2204, termination switch TS-55, and a timer, DT-8145.",
     {"defrost heater": "DH-2204", "defrost termination switch": "TS-55", "defrost timer": "DT-8145"}),
    ("In went a new fan motor, part number FM-1180, a new 5 microfarad that I measured at 5.02, and a 3 pole "
     "contactor, C-30-24.",
     {"fan motor": "FM-1180", "run capacitor": None, "contactor": "C-30-24"}),
    ("Old compressor CR-18, put a new compressor in, CR-22-PFV.", {"compressor": "CR-22-PFV"}),
    ("Put in a new run capacitor, 45 plus 5. Model SX-48, serial 3066B, 410A.", {"run capacitor": None}),
]  # fmt: skip

STEPS = [
    ("Quoted them an actuator for the economizer, they said no.", [("part_replaced", "not_done")]),
    ("Start relay rattled. I had a universal one on the van. Slid it on.", [("part_replaced", "done")]),
    ("It's a 45 plus 5 capacitor. New 45 5 went in.", [("part_replaced", "done")]),
    ("Heaters one and two. The middle one I'll bring Thursday.", [("part_replaced", "planned")]),
    ("Charge I didn't touch and saw no reason to.", [("charged", "not_done")]),
    ("He'll be fine if he gets the coil cleaned, which I didn't do.", [("cleaned", "not_done")]),
    ("So I started her up, box minus nine.", []),
    ("Drier in and out is thirty-four and thirty-three degrees.", []),
    ("Ice thickness set at 4, I left it at 4 on both.", []),
    ("Door heater was changed last week by the shop's own electrician.", []),
]


@pytest.mark.parametrize(("text", "want"), NUMBERS, ids=lambda v: v if isinstance(v, str) else "")
def test_part_numbers(text: str, want: dict[str, str | None]) -> None:
    """Each part that was put in has the number told of it, and no other."""
    assert {p.name: p.part_number for p in read_text(text).parts} == want


@pytest.mark.parametrize(("text", "want"), STEPS, ids=lambda v: v if isinstance(v, str) else "")
def test_steps(text: str, want: list[tuple[str, str]]) -> None:
    """What was refused, put off or left alone is no work done."""
    assert [(s.step, s.status) for s in read_text(text).steps if s.step != "run_checked"] == want
