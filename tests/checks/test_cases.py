"""Every case of every rule: `tests/checks/cases/README.md` says how they are written."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from dictate.checks.facts import Facts
from dictate.checks.run import FOLDERS, by_id, catalogue
from dictate.record.visit import Check
from tests.checks.build import PARTS_OF_A_RECORD, record

CASES = Path(__file__).parent / "cases"
ASSERTIONS = {"expect", "says", "silent_about", "evidence", "computed"}
KNOWN_KEYS = PARTS_OF_A_RECORD | ASSERTIONS | {"show", "why"}


def load(path: Path) -> dict[str, Any]:
    return tomllib.loads(path.read_text(encoding="utf-8"))


FILES = sorted(CASES.glob("*/*.toml"))
ALL = [(path, name, case) for path in FILES for name, case in load(path).get("case", {}).items()]


def findings(path: Path, case: dict[str, Any]) -> list[Check]:
    rule = by_id(load(path)["rule"])
    assert rule is not None, f"{path.name} names an unknown rule"
    return list(rule.run(Facts(record(case))))


@pytest.mark.parametrize(
    ("path", "name", "case"), ALL, ids=[f"{p.parent.name}/{p.stem}:{n}" for p, n, _ in ALL]
)
def test_case(path: Path, name: str, case: dict[str, Any]) -> None:
    unknown = set(case) - KNOWN_KEYS
    assert not unknown, f"unknown keys {unknown}"
    assert "expect" in case, "a case that asserts nothing"
    found = findings(path, case)
    told = "\n".join(f"{c.outcome}: {c.message} | {c.question or ''}" for c in found)
    assert [c.outcome for c in found] == case["expect"], told
    text = told.lower()
    for phrase in case.get("says", []):
        assert phrase.lower() in text, f"{phrase!r} is not said in:\n{told}"
    for phrase in case.get("silent_about", []):
        assert phrase.lower() not in text, f"{phrase!r} is said in:\n{told}"
    if "evidence" in case:
        assert sorted({e for c in found for e in c.evidence}) == sorted(case["evidence"])
    for key, (value, unit, tolerance) in case.get("computed", {}).items():
        got = [c.computed[key] for c in found if key in c.computed]
        assert got, f"{key} was not computed: {[list(c.computed) for c in found]}"
        assert any(g.unit == unit and abs(g.value - value) <= tolerance for g in got), (key, got)


@pytest.mark.parametrize("rule", catalogue(), ids=lambda r: r.id)
def test_every_rule_is_one_file_with_its_case_file(rule: Any) -> None:
    path = CASES / rule.folder / f"{rule.file}.toml"
    assert path.is_file(), f"write {path.relative_to(CASES)}"
    loaded = load(path)
    assert loaded["rule"] == rule.id
    assert set(loaded) == {"rule", "case"}
    assert any(case.get("show") for case in loaded["case"].values()), "one case is shown on the rule's page"


@pytest.mark.parametrize("rule", catalogue(), ids=lambda r: r.id)
def test_every_verdict_that_a_rule_gives_in_code_has_a_case(rule: Any) -> None:
    source = Path(rule.function.__code__.co_filename).read_text(encoding="utf-8")
    given = {v for v in ("ok", "problem", "missing", "unsure") if f"{v}(" in source.replace("_ok(", "")}
    if rule.tag == "from memory":
        given = {"unsure" if v == "problem" else v for v in given}
    cases = load(CASES / rule.folder / f"{rule.file}.toml")["case"].values()
    expected = {outcome for case in cases for outcome in case["expect"]}
    assert given | {"not_applicable"} <= expected, f"no case for {(given | {'not_applicable'}) - expected}"


@pytest.mark.parametrize("folder", FOLDERS)
def test_each_folder_lists_exactly_its_files(folder: str) -> None:
    here = Path(__file__).parents[2] / "dictate" / "checks" / folder
    files = {p.stem for p in here.glob("*.py") if p.stem != "__init__" and not p.stem.startswith("_")}
    assert {r.file for r in catalogue() if r.folder == folder} == files


def test_no_case_file_is_without_its_rule() -> None:
    homes = {(r.folder, r.file) for r in catalogue()}
    assert {(p.parent.name, p.stem) for p in FILES} <= homes


@pytest.mark.parametrize("rule", catalogue(), ids=lambda r: r.id)
def test_every_rule_has_its_page(rule: Any) -> None:
    assert rule.checks and rule.applies and rule.source and rule.question
    assert rule.checks.endswith(".") and rule.question.endswith("?")
    assert not rule.applies.endswith(".") and not rule.source.endswith(".")
    assert " safe" not in f"{rule.checks} {rule.caution}".lower()
