"""The register of the spoken samples says what the files are, and the expected records say what the words say."""

from __future__ import annotations

import hashlib
import json
import re
from pathlib import Path
from typing import Any, get_args

import pytest

from dictate.record import visit

FOLDER = Path(__file__).parents[2] / "audio_samples"
VISITS = ("freezer-leak", "fan-motor")
SOUND = {".m4a": "aac", ".ogg": "opus", ".flac": "flac"}
OPEN_VOICES = ("kokoro-", "flite-", "festival-")
LISTS = {
    "equipment": visit.Equipment,
    "readings": visit.Reading,
    "readings_optional": visit.Reading,
    "refrigerant": visit.Movement,
    "steps": visit.Step,
    "parts": visit.Part,
    "parts_optional": visit.Part,
}


def register() -> dict[str, dict[str, str]]:
    """The rows of the register's table by file name."""
    lines = (FOLDER / "README.md").read_text(encoding="utf-8").splitlines()
    head = next(i for i, line in enumerate(lines) if line.startswith("| file | voice"))
    names = [c.strip() for c in lines[head].strip("|").split("|")]
    rows = {}
    for line in lines[head + 2 :]:
        if not line.startswith("|"):
            break
        cells = [c.strip().strip("`") for c in line.strip("|").split("|")]
        rows[cells[0]] = dict(zip(names, cells, strict=True))
    return rows


def words(name: str) -> str:
    return " ".join((FOLDER / f"{name}.txt").read_text(encoding="utf-8").split())


def expected(name: str) -> dict[str, Any]:
    return json.loads((FOLDER / f"{name}.record.json").read_text(encoding="utf-8"))


def test_every_sound_file_is_registered_and_nothing_else_is():
    there = {p.name for p in FOLDER.iterdir() if p.suffix in SOUND}
    assert there == set(register())
    others = {p.name for p in FOLDER.iterdir()} - there
    assert others == {"README.md"} | {f"{v}.txt" for v in VISITS} | {f"{v}.record.json" for v in VISITS}


@pytest.mark.parametrize("row", register().values(), ids=lambda r: r["file"])
def test_a_row_tells_the_truth(row):
    path = FOLDER / row["file"]
    assert hashlib.sha256(path.read_bytes()).hexdigest() == row["sha256"]
    assert row["voice"].startswith(OPEN_VOICES), "only voices whose sound may be published"
    assert (FOLDER / row["words"]).is_file()
    text = (FOLDER / "README.md").read_text(encoding="utf-8")
    voice, seed = row["voice"].split()[0], row["rate, seed"].split(",")[1].strip()
    commands = [line.strip() for line in text.splitlines() if line.strip().endswith(f"--out {row['file']}")]
    assert len(commands) == 1
    assert f"SPEAK {row['words']} --voice {voice} " in commands[0]
    assert f"--seed {seed} " in commands[0]
    if row["noise"] == "none":
        assert "--noise" not in commands[0]
    else:
        kind, snr = re.match(r"(\w+), (\d+) dB", row["noise"]).groups()
        assert f"--noise {kind} --snr {snr} " in commands[0]


@pytest.mark.parametrize("row", register().values(), ids=lambda r: r["file"])
def test_the_sound_is_what_the_register_says(row):
    av = pytest.importorskip("av")
    with av.open(str(FOLDER / row["file"])) as container:
        stream = container.streams.audio[0]
        assert stream.codec_context.name == SOUND[Path(row["file"]).suffix]
        assert row["codec"].lower().startswith(SOUND[Path(row["file"]).suffix])
        seconds = container.duration / 1_000_000
    assert 60 <= seconds <= 120
    # Nobody dictates faster than four words a second, nor slower than one.
    assert 1 < len(words(row["words"].removesuffix(".txt")).split()) / seconds < 4


def test_the_licence_of_the_voices_is_named():
    text = (FOLDER / "README.md").read_text(encoding="utf-8")
    assert "## Licence" in text
    assert "Kokoro-82M" in text
    assert "Apache-2.0" in text


@pytest.mark.parametrize("name", VISITS)
def test_the_expected_record_uses_the_records_own_names(name):
    record = expected(name)
    for key, model in LISTS.items():
        for row in record.get(key, []):
            assert not set(row) - set(model.model_fields) - {"nth"}, row
    for row in [*record["readings"], *record.get("readings_optional", [])]:
        assert row["quantity"] in get_args(visit.Quantity)
        assert row["unit"] in get_args(visit.Unit)
        assert row.get("role", "measured") in get_args(visit.Role)
    for step in record["steps"]:
        assert step["step"] in get_args(visit.StepCode)


@pytest.mark.parametrize("name", VISITS)
def test_the_expected_record_is_in_the_words(name):
    text, record = words(name), expected(name)
    for row in [*record["readings"], *record.get("readings_optional", []), *record["refrigerant"]]:
        found = len(re.findall(rf"\b{re.escape(row['heard'])}\b", text))
        assert found == 1 or row.get("nth", 0) in range(1, found + 1), row


def test_exactly_two_things_are_forgotten():
    forgotten = expected("freezer-leak")["checks"]["missing"]
    assert sorted(forgotten) == ["evacuation.hold-not-stated", "ports.caps-not-stated"]
    text = words("freezer-leak").lower()
    assert "cap" not in text
    after_vacuum = text[text.index("evacuated") : text.index("charged")]
    assert not re.search(r"held|hold|stayed|rose|isolated|minutes", after_vacuum)
    assert expected("fan-motor")["checks"]["missing"] == []
