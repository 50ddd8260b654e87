"""Make `dictate/checks/examples.json` and `dictate/checks/RULES.md`: `python -m tests.checks.show`.

The examples are the cases with `show = true`, run through their rules; a test keeps both files up to date.
"""

from __future__ import annotations

import json
import tomllib
from pathlib import Path

from dictate.checks import pages
from dictate.checks.facts import Facts
from dictate.checks.run import catalogue
from tests.checks.build import record

CASES = Path(__file__).parent / "cases"


def examples() -> dict[str, list[dict[str, str]]]:
    """Return rule id -> what its shown cases say: verdict, message and question."""
    found: dict[str, list[dict[str, str]]] = {}
    for rule in catalogue():
        path = CASES / rule.folder / f"{rule.file}.toml"
        if not path.is_file():
            continue
        for name, case in tomllib.loads(path.read_text(encoding="utf-8"))["case"].items():
            if not case.get("show"):
                continue
            for check in rule.run(Facts(record(case))):
                if check.outcome in ("problem", "missing", "unsure"):
                    entry = {
                        "case": name.replace("_", " "),
                        "outcome": check.outcome,
                        "message": check.message,
                    }
                    found.setdefault(rule.id, []).append(entry)
                    break
    return found


def text() -> str:
    """Return the examples as the file holds them."""
    return json.dumps(examples(), indent=1, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    here = Path(pages.__file__).parent
    (here / "examples.json").write_text(text(), encoding="utf-8")
    pages.examples.cache_clear()
    (here / "RULES.md").write_text(pages.reference(), encoding="utf-8")
