"""The command line starts fast, and every error is one line with the promised exit code."""

import subprocess
import sys

import pytest

from dictate.cli import COMMANDS

HEAVY = ("faster_whisper", "ctranslate2", "spacy", "pint", "CoolProp", "av", "numpy", "pydantic", "starlette",
         "uvicorn", "jinja2", "distributed", "lxml")  # fmt: skip


def run(*args: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, "-m", "dictate", *args], capture_output=True, text=True)


def test_help_imports_nothing_heavy() -> None:
    code = (
        "import sys\nfrom dictate.cli import app\n"
        "try:\n    app(['--help'], standalone_mode=False)\nfinally:\n"
        f"    print('LOADED', [m for m in {HEAVY!r} if m in sys.modules])\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert "LOADED []" in done.stdout, done.stdout + done.stderr


@pytest.mark.parametrize("name", sorted(COMMANDS))
def test_every_listed_command_has_help(name: str) -> None:
    done = run(name, "--help")
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith("Usage:")


def test_unknown_command_and_option_are_wrong_usage() -> None:
    assert run("frobnicate").returncode == 2
    assert run("note").returncode == 2
    assert run("note", "x.txt", "--no-such-option").returncode == 2


def test_missing_input_is_one_line_and_exit_code_3(tmp_path) -> None:
    done = run("note", str(tmp_path / "nowhere.m4a"))
    assert done.returncode == 3
    assert done.stdout == ""
    assert "Traceback" not in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1
    assert "nowhere.m4a" in done.stderr
