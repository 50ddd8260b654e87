"""Every label file keeps to the format, and the set is as large and as wide as it claims to be."""

import pytest

from tests.narrations.labels import HERE, SETS, LabelError, read, span

FILES = sorted(p for s in SETS for p in (HERE / s).glob("*.toml"))
CONTRACT_RULES = {
    "power.isolation-not-stated", "power.dead-test-not-stated", "winding.open", "winding.grounded",
    "winding.sum-mismatch", "winding.overload-open", "compressor.condemned-early", "coil.open",
    "voltage.out-of-tolerance", "voltage.unbalanced", "voltage.drop-excessive", "current.over-rated",
    "capacitor.out-of-tolerance", "contactor.voltage-drop", "recovery.not-stated",
    "recovery.amount-not-stated", "purge.not-stated", "drier.replacement-not-stated",
    "pressure-test.not-stated",
    "pressure-test.dropped",
    "leak-check.not-stated", "evacuation.not-stated", "evacuation.too-shallow", "evacuation.hold-not-stated",
    "evacuation.hold-failed", "charge.amount-not-stated", "charge.refrigerant-not-stated",
    "charge.refrigerant-mismatch", "charge.off-nameplate", "ports.caps-not-stated", "leak-rate.over-trigger",
    "leak-rate.not-computable", "superheat.out-of-range", "subcooling.out-of-range", "run.check-not-stated",
    "run.readings-not-stated", "equipment.identity-not-stated",
    "reading.implausible", "reading.unit-not-stated",
}  # fmt: skip


@pytest.mark.parametrize("path", FILES, ids=lambda p: f"{p.parent.name}-{p.stem}")
def test_file_keeps_to_the_format(path):
    made = read(path)
    assert 60 <= len(made.words) <= 600
    unknown = {r.split("@")[0] for r in [*made.raised, *made.quiet]} - CONTRACT_RULES
    assert not unknown, unknown
    # A snippet that must not become a reading does not lie over one that must.
    measured = [r for r in made.readings if r.get("role") == "measured"]
    for row in made.not_readings:
        clash = [r.get("heard") for r in measured if r.first <= row.last and row.first <= r.last]
        assert not clash, (row.get("heard"), clash)


def test_the_set_is_large_and_wide_enough():
    made = [read(path) for path in FILES]
    if len(made) < 60:
        pytest.fail(f"{len(made)} narrations, 60 wanted")
    assert sum(len(m.readings) for m in made) >= 700
    types = [e["type"] for m in made for e in m.equipment if e.get("type")]
    assert len({t[0] if isinstance(t, list) else t for t in types}) >= 15
    assert {m.keys["units"] for m in made} == {"us", "metric"}
    assert {m.keys["form"] for m in made} == {"words", "recogniser"}
    assert {m.keys["style"] for m in made} == {"terse", "chatty"}
    assert len({m.keys["job"] for m in made}) >= 6
    assert {m.set for m in made} == set(SETS)
    assert len({m.name for m in made}) == len(made)


def test_a_snippet_is_placed_by_words_and_must_be_unique():
    text = "Suction was 22 psi,\nthen 122 psi on the head."
    assert span(text, "22 psi", None) == (2, 3)
    assert span(text, "psi, then 122", None) == (3, 5)
    with pytest.raises(LabelError, match="2 times"):
        span(text, "psi", None)
    assert span(text, "psi", 2) == (6, 6)
    with pytest.raises(LabelError, match="not in the text"):
        span(text, "23", None)
