"""The catalogue's pages, its size, and what it costs to run."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path

import pytest
from click.testing import CliRunner

from dictate.checks import pages
from dictate.checks.rule import Rule, rule
from dictate.checks.run import catalogue, run
from dictate.cli.rules import command
from dictate.errors import UsageError
from tests.checks import show
from tests.checks.build import record

CONTRACT_WORDS = """
power.isolation-not-stated power.dead-test-not-stated winding.open winding.grounded winding.sum-mismatch
winding.overload-open compressor.condemned-early coil.open voltage.out-of-tolerance voltage.unbalanced
voltage.drop-excessive current.over-rated capacitor.out-of-tolerance contactor.voltage-drop recovery.not-stated
recovery.amount-not-stated purge.not-stated drier.replacement-not-stated pressure-test.not-stated
pressure-test.dropped leak-check.not-stated evacuation.not-stated evacuation.too-shallow
evacuation.hold-not-stated evacuation.hold-failed charge.amount-not-stated charge.refrigerant-not-stated
charge.refrigerant-mismatch charge.off-nameplate ports.caps-not-stated leak-rate.over-trigger
leak-rate.not-computable superheat.out-of-range subcooling.out-of-range run.check-not-stated
run.readings-not-stated equipment.identity-not-stated reading.implausible reading.unit-not-stated
"""


def test_every_promised_rule_exists() -> None:
    assert set(CONTRACT_WORDS.split()) <= {r.id for r in catalogue()}


def test_there_are_at_least_sixty_rules() -> None:
    assert len(catalogue()) >= 60


def test_at_least_forty_rules_are_raised_from_a_narration() -> None:
    # test_raised_from_narration.py runs these files and fails when one of the rules is not raised.
    files = (Path(__file__).parent / "narrations").glob("*.toml")
    entries = [e for f in files for e in tomllib.loads(f.read_text(encoding="utf-8"))["narration"].values()]
    assert len({rule for e in entries for rule in e["raised"]}) >= 40


def test_the_reference_page_is_current() -> None:
    assert pages.published() == pages.reference(), "run `python -m tests.checks.show`"


def test_the_examples_are_current() -> None:
    stored = json.dumps(pages.examples(), indent=1, ensure_ascii=False) + "\n"
    assert stored == show.text(), "run `python -m tests.checks.show`"


def test_rules_lists_every_rule() -> None:
    result = CliRunner().invoke(command, [])
    assert result.exit_code == 0
    for r in catalogue():
        assert r.id in result.output


def test_rules_explains_one() -> None:
    result = CliRunner().invoke(command, ["winding.open"])
    assert result.exit_code == 0
    for heading in ("checks", "applies", "source", "basis", "asks", "caution"):
        assert f"\n  {heading}" in result.output


def test_rules_takes_a_star_and_json() -> None:
    result = CliRunner().invoke(command, ["winding.*", "--json"])
    found = json.loads(result.output)
    assert {"winding.open", "winding.grounded"} <= {r["id"] for r in found}
    assert all(r["id"].startswith("winding.") for r in found)


def test_an_unknown_rule_names_those_near_it() -> None:
    result = CliRunner().invoke(command, ["winding.broken"])
    assert isinstance(result.exception, UsageError)
    assert "winding.open" in str(result.exception)


def test_a_source_from_memory_never_gives_a_hard_verdict() -> None:
    from dictate.checks.facts import Facts
    from dictate.checks.rule import problem

    made: Rule = rule(id="a.b", checks="A.", applies="b", source="c", tag="from memory", question="D?")(
        lambda facts: iter([problem("wrong", *facts.readings())])
    )
    (check,) = made.run(Facts(record({"readings": [{"quantity": "voltage", "value": 1}]})))
    assert check.outcome == "unsure"


def test_a_problem_on_a_doubtful_value_says_so() -> None:
    from dictate.checks.facts import Facts
    from dictate.checks.rule import problem

    made = rule(id="a.b", checks="A.", applies="b", source="c", tag="published", question="D?")(
        lambda facts: iter([problem("wrong", *facts.readings())])
    )
    case = {"readings": [{"quantity": "voltage", "value": 1, "review": ["recogniser unsure"]}]}
    (check,) = made.run(Facts(record(case)))
    assert check.outcome == "unsure"
    assert check.message.startswith("If the value is right")
    assert "recogniser unsure" in check.message


def test_findings_are_numbered_and_carry_what_they_rest_on() -> None:
    checks = run(
        record(
            {"readings": [{"quantity": "capacitance", "value": 0, "component": "run capacitor", "at_s": 7}]}
        )
    )
    assert [c.id for c in checks] == [f"k{n}" for n in range(1, len(checks) + 1)]
    (found,) = [c for c in checks if c.rule == "capacitor.out-of-tolerance"]
    assert found.evidence == ["r1"]
    assert found.at[0].start_s == 7
    assert found.source and found.tag == "published"
    assert {c.rule for c in checks} == {r.id for r in catalogue()}, (
        "every rule says something of every record"
    )


def test_an_empty_record_raises_nothing() -> None:
    raised = [c.rule for c in run(record({})) if c.outcome in ("problem", "missing", "unsure")]
    assert raised == []


@pytest.mark.parametrize("quiet", ["CoolProp", "pint", "spacy"])
def test_heavy_libraries_are_not_loaded_with_the_catalogue(quiet: str) -> None:
    import subprocess
    import sys

    code = (
        f"import sys; from dictate.checks.run import catalogue; catalogue(); print('{quiet}' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"
