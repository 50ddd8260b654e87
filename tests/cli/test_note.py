"""`dictate note` from the outside: what is printed, what is written, and how it fails."""

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import jsonschema
import numpy as np
import pytest

from dictate.record import schema
from tests.ledger.fakes import wav

WORDS = (
    "Reach-in freezer, model RF-49. Suction is two psi. Recovered eleven ounces of R-404A.\n"
    "Put in a new filter drier. Charged one pound ten ounces of R-404A.\n"
)


def run(*args: object, env: dict[str, str] | None = None) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "dictate", *map(str, args)]
    return subprocess.run(
        command, capture_output=True, text=True, env={**os.environ, **(env or {})}, timeout=300
    )


def one_line(done: subprocess.CompletedProcess[str], code: int, *words: str) -> None:
    """The promised failure: the code, nothing on stdout, one line that names the thing and the next step."""
    assert done.returncode == code, done.stderr
    lines = [line for line in done.stderr.splitlines() if line.startswith("dictate:")]
    assert len(lines) == 1, done.stderr
    assert "Traceback" not in done.stderr
    for word in words:
        assert word in lines[0]


@pytest.fixture
def narration(tmp_path: Path) -> Path:
    path = tmp_path / "visit.txt"
    path.write_text(WORDS, encoding="utf-8")
    return path


def test_json_is_the_record_alone_and_follows_the_schema(narration: Path) -> None:
    done = run("note", narration, "--json", "-q")
    assert done.returncode == 0, done.stderr
    record = json.loads(done.stdout)
    jsonschema.Draft202012Validator(json.loads(schema.published())).validate(record)
    assert [(m["direction"], m["refrigerant"]) for m in record["refrigerant"]] == [
        ("recovered", "R-404A"),
        ("charged", "R-404A"),
    ]
    assert record["clips"][0]["sha256"]
    assert record["transcript"][0]["words"][0]["start_s"] is None


def test_summary_says_first_what_needs_a_look(narration: Path) -> None:
    done = run("note", narration, "-q")
    assert done.stdout.index("NEEDS A LOOK") < done.stdout.index("In: 1.625 lb (1 lb 10 oz) R-404A")


def test_out_writes_the_files_and_the_page_needs_no_network(narration: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    assert run("note", narration, "--out", out, "-q").returncode == 0
    assert {p.name for p in out.iterdir()} >= {"record.json", "record.html", "transcript.vtt", "summary.txt"}
    page = (out / "record.html").read_text(encoding="utf-8")
    assert "http" not in page.replace("http-equiv", "")
    assert "<script" not in page
    assert not list(out.glob(".*"))


def test_the_same_input_gives_the_same_record(narration: Path) -> None:
    assert run("note", narration, "--json", "-q").stdout == run("note", narration, "--json", "-q").stdout


def test_strict_tells_that_something_is_open(narration: Path) -> None:
    assert run("note", narration, "-q", "--strict").returncode == 10


def test_us_law_is_applied_only_when_it_is_said(narration: Path) -> None:
    assert json.loads(run("note", narration, "--json", "-q").stdout)["visit"]["jurisdiction"] is None
    assert (
        json.loads(run("note", narration, "--json", "-q", "--us-law").stdout)["visit"]["jurisdiction"] == "US"
    )


# -- bad input ----------------------------------------------------------------------------------------


def test_a_folder(tmp_path: Path) -> None:
    one_line(run("note", tmp_path), 3, "is a folder")


def test_zero_bytes(tmp_path: Path) -> None:
    path = tmp_path / "empty.m4a"
    path.touch()
    one_line(run("note", path), 3, "empty.m4a", "0 bytes")


def test_text_renamed_to_m4a(tmp_path: Path) -> None:
    path = tmp_path / "visit.m4a"
    path.write_text(WORDS)
    one_line(run("note", path), 3, "visit.m4a")


def test_an_empty_transcript(tmp_path: Path) -> None:
    path = tmp_path / "visit.txt"
    path.write_text("\n \n")
    done = run("note", path, "-q")
    assert done.returncode in (3, 5)
    assert "Traceback" not in done.stderr


def test_a_broken_input_beside_a_good_one(narration: Path, tmp_path: Path) -> None:
    broken = tmp_path / "broken.m4a"
    broken.write_bytes(b"no sound")
    done = run("note", broken, narration, "--json", "-q")
    assert done.returncode == 3
    record = json.loads(done.stdout)
    assert len(record["refrigerant"]) == 2
    assert [Path(p["file"]).name for p in record["problems"]] == ["broken.m4a"]
    assert "broken.m4a" in done.stderr


@pytest.mark.skipif(os.geteuid() == 0, reason="root reads everything")
def test_unreadable(narration: Path) -> None:
    narration.chmod(0)
    one_line(run("note", narration), 3, "may not be read")


def test_output_that_cannot_be_written(narration: Path) -> None:
    one_line(run("note", narration, "--out", "/proc/no-such-place", "-q"), 7, "/proc/no-such-place")


def test_output_that_is_a_file(narration: Path, tmp_path: Path) -> None:
    (tmp_path / "out").touch()
    one_line(run("note", narration, "--out", tmp_path / "out", "-q"), 2, "is a file")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_a_full_disk_on_stdout_is_no_traceback(narration: Path) -> None:
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            [sys.executable, "-m", "dictate", "note", str(narration), "-q"],
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
        )
    assert done.returncode == 7
    assert "Traceback" not in done.stderr


def test_an_unknown_model_names_what_is_there(tmp_path: Path) -> None:
    path = wav(tmp_path / "a.wav", 3, seconds=1)
    one_line(run("note", path, "--model", "no-such-model", "-q"), 4, "no-such-model", "dictate models")


def test_a_settings_file_with_a_misspelt_key(narration: Path, tmp_path: Path) -> None:
    file = tmp_path / "shop.toml"
    file.write_text("[shop]\nnmae = 'x'\n")
    one_line(run("note", narration, "--config", file), 6, "unknown key shop.nmae")


# -- the real model -----------------------------------------------------------------------------------


def sound(path: Path, kind: str, seconds: int = 20) -> Path:
    import wave

    rng = np.random.default_rng(5)
    t = np.arange(seconds * 16000) / 16000
    noise = {
        "silence": np.zeros(len(t)),
        "hum": sum(0.1 / k * np.sin(2 * np.pi * 60 * k * t) for k in range(1, 12))
        + 0.01 * rng.standard_normal(len(t)),
    }[kind]
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(16000)
        file.writeframes((np.clip(noise, -1, 1) * 32000).astype("<i2").tobytes())
    return path


@pytest.mark.model
@pytest.mark.parametrize("kind", ["silence", "hum"])
def test_sound_without_speech_invents_nothing(tmp_path: Path, kind: str) -> None:
    one_line(run("note", sound(tmp_path / f"{kind}.wav", kind), "-q"), 5)


@pytest.mark.model
def test_an_interrupt_leaves_nothing_half_written(tmp_path: Path) -> None:
    sample = Path(__file__).parents[2] / "audio_samples" / "freezer-leak.m4a"
    out = tmp_path / "out"
    process = subprocess.Popen(
        [sys.executable, "-m", "dictate", "note", str(sample), "--fresh", "--out", str(out)],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    time.sleep(4)
    process.send_signal(signal.SIGINT)
    _, err = process.communicate(timeout=60)
    assert process.returncode == 130, err
    assert "interrupted" in err
    assert "Traceback" not in err
    assert list(out.iterdir()) == []
