"""The documents say what the code does."""

import re
from pathlib import Path

import pytest

from dictate.cli import reference
from dictate.errors import ExitCode

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")


def test_readme_lists_every_command() -> None:
    assert reference.rewritten(README) == README, "run: python -m dictate.cli.reference"


def test_readme_promises_the_exit_codes_of_the_code() -> None:
    promised = {int(code) for code in re.findall(r"^\| (\d+) \|", README, re.MULTILINE)}
    assert promised == {int(code) for code in ExitCode}


def test_readme_opens_with_the_job_and_two_set_up_commands() -> None:
    assert README.splitlines()[2].startswith("A refrigeration service technician")
    assert README.count("python3 -m venv .venv && ") == 2


def test_ci_runs_the_same_test_command_as_readme() -> None:
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    for shared in ("'.[all,dev]' -c .ci/constraints.txt", "pytest", '"not long"'):
        assert shared in script
        assert shared in README


@pytest.mark.parametrize(
    "name", ["README.md", "DEVELOPERS.md", "models/README.md", "audio_samples/README.md"]
)
def test_links_between_documents_lead_somewhere(name: str) -> None:
    text = (ROOT / name).read_text(encoding="utf-8")
    for target in re.findall(r"\]\(([^)#:]+)\)", text):
        assert ((ROOT / name).parent / target).exists(), f"{name} points at {target}"


def test_every_folder_of_the_map_is_there() -> None:
    developers = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    for folder in re.findall(
        r"^\| `((?:dictate|models|audio_samples|tests)/[^`]*)`", developers, re.MULTILINE
    ):
        assert (ROOT / folder).exists(), folder


def test_every_package_is_on_the_map() -> None:
    developers = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    packages = {p.parent.name for p in (ROOT / "dictate").glob("*/__init__.py")}
    assert {p for p in packages if f"`dictate/{p}/`" not in developers} == set()
