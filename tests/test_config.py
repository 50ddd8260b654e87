"""The settings: which place wins, and one clear line for what is wrong."""

from pathlib import Path

import pytest

from dictate import config
from dictate.errors import RecordError
from dictate.record.transcript import Segment
from dictate.record.visit import Equipment, Record, Visit
from dictate.writeup.known import apply

FILE = """
[shop]
name = "Northwind Cold"
jurisdiction = "US"
[labour]
step_minutes = 30
[[technician]]
name = "A. Sample"
said = ["Al"]
certificate = "TYPE-II 0001"
[[customer]]
name = "Harbour Kitchen"
said = ["the harbour"]
site = "12 Quay Road"
[[customer.appliance]]
name = "walk-in freezer"
said = ["big freezer"]
model = "WF-20"
serial = "A100"
refrigerant = "R-404A"
full_charge = 18.0
"""


def test_the_later_place_wins_and_says_so(tmp_path: Path) -> None:
    (tmp_path / "dictate.toml").write_text(FILE)
    named = tmp_path / "other.toml"
    named.write_text('[shop]\nname = "Other"\n')
    below = tmp_path / "a" / "b"
    below.mkdir(parents=True)
    env = {"DICTATE_CONFIG": str(named), "DICTATE_LABOUR_STEP_MINUTES": "6"}
    loaded = config.load(
        start=below, environment=env, flags={"labour.rounding": "none", "listen.model": None}
    )
    assert loaded.settings.shop.name == "Other"
    assert loaded.settings.shop.jurisdiction == "US"
    assert loaded.settings.labour.step_minutes == 6
    assert loaded.settings.labour.rounding == "none"
    assert loaded.origin["shop.name"].startswith("named file")
    assert loaded.origin["shop.jurisdiction"].startswith("project file")
    assert loaded.origin["labour.step_minutes"] == "environment DICTATE_LABOUR_STEP_MINUTES"
    assert loaded.origin["labour.rounding"] == "command line"
    assert "listen.model" not in loaded.origin


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("[shop]\nnmae = 'x'\n", "unknown key shop.nmae"),
        ("[shp]\n", "unknown key shp"),
        ("[labour]\nstep_minutes = 0\n", "labour.step_minutes"),
        ("[labour\n", "line 1"),
        ("[[technician]]\n", "technician.0.name"),
        ("[shop]\ncurrency = 'dollars'\n", "shop.currency"),
    ],
)
def test_a_wrong_file_is_one_clear_line(tmp_path: Path, text: str, says: str) -> None:
    (tmp_path / "dictate.toml").write_text(text)
    with pytest.raises(RecordError) as error:
        config.load(start=tmp_path, environment={})
    assert says in str(error.value)
    assert "dictate.toml" in str(error.value)
    assert "\n" not in str(error.value)


def visit(words: str, **machine: str) -> Record:
    return Record(
        visit=Visit(id="v"),
        transcript=[Segment(clip="c1", text=words)],
        equipment=[Equipment(id="e1", **machine)],
    )


def shop(tmp_path: Path) -> config.Loaded:
    (tmp_path / "dictate.toml").write_text(FILE)
    return config.load(start=tmp_path, environment={})


def test_a_short_name_finds_the_site_and_the_machine(tmp_path: Path) -> None:
    record = visit("Al here, I'm at the Harbour, the big freezer is warm", type="walk-in freezer")
    apply(record, shop(tmp_path).settings)
    assert record.visit.customer == "Harbour Kitchen"
    assert record.visit.site == "12 Quay Road"
    assert record.visit.technician == "A. Sample"
    assert record.visit.certificate == "TYPE-II 0001"
    assert record.visit.jurisdiction == "US"
    machine = record.equipment[0]
    assert (machine.model, machine.serial, machine.refrigerant) == ("WF-20", "A100", "R-404A")
    assert machine.plate[0].value == 18
    assert "shop's file" in machine.plate[0].heard


def test_a_name_inside_another_word_is_no_name(tmp_path: Path) -> None:
    record = visit("also the harbourmaster called", type="ice machine")
    apply(record, shop(tmp_path).settings)
    assert record.visit.customer is None
    assert record.visit.technician is None


def test_what_was_said_stays_and_a_difference_is_marked(tmp_path: Path) -> None:
    record = visit("at the harbour, big freezer", type="walk-in freezer", serial="A101")
    apply(record, shop(tmp_path).settings)
    assert record.equipment[0].serial == "A101"
    assert "A100" in record.equipment[0].review[0]
