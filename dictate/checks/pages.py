"""The page of a rule, and the reference page of them all; both are made from the rules themselves.

Regenerate the reference page and its examples with `python -m tests.checks.show`; a test keeps both current.
"""

from __future__ import annotations

import json
from functools import cache
from importlib import resources

from dictate.checks.rule import Rule
from dictate.checks.run import catalogue

TITLES = {
    "record": "The record itself",
    "safety": "Power, stored energy and flammables",
    "electrical": "Electrical",
    "diagnosis": "Diagnosis",
    "procedure": "Sealed-system procedure",
    "physics": "Physics of the circuit",
    "law": "Law and logs",
    "missing": "What the work needs and was not said",
}
TAGS = {
    "published": "published",
    "common practice": "common practice: a softer limit of the trade, which the maker's figure overrides",
    "from memory": "from memory: never a hard verdict",
}
HEAD = """# The rules

Made from the rules by `python -m tests.checks.show`; do not edit by hand. `dictate rules ID` prints one.

A rule gives one of five verdicts: `ok`, `problem` (measured, and not right), `missing` (this work needs it
and it was not said), `unsure` (cannot be decided from what was said) or `not_applicable`. A problem that
rests on a value marked for review becomes `unsure`. Plates, makers' figures, local codes and licensed
practice come before every limit here, and no verdict is a permission to touch, pressurise, energise or
light anything.
"""


@cache
def examples() -> dict[str, list[dict[str, str]]]:
    """Return rule id -> what its shown cases say (`case`, `outcome`, `message`); empty if there are none."""
    file = resources.files("dictate.checks") / "examples.json"
    if not file.is_file():
        return {}
    found: dict[str, list[dict[str, str]]] = json.loads(file.read_text(encoding="utf-8"))
    return found


def page(rule: Rule) -> str:
    """Return the page of one rule as plain text: fixed headings, in a fixed order."""
    lines = [rule.id, "", f"  checks    {rule.checks}", f"  applies   where {rule.applies}"]
    lines.append(f"  source    {rule.source}")
    lines.append(f"  basis     {TAGS[rule.tag]}")
    lines.append(f"  asks      {rule.question}")
    if rule.caution:
        lines.append(f"  caution   {rule.caution}")
    if rule.blocking:
        lines.append("  export    waits for this one")
    for example in examples().get(rule.id, []):
        lines.append(f"  example   {example['case']}: {example['outcome']}. {example['message']}")
    return "\n".join(lines)


def reference() -> str:
    """Return the reference page of all rules, as Markdown."""
    rules = catalogue()
    text = [HEAD, f"{len(rules)} rules.\n"]
    for folder in dict.fromkeys(r.folder for r in rules):
        text.append(f"## {TITLES.get(folder, folder)}\n")
        for rule in (r for r in rules if r.folder == folder):
            text.append(f"### `{rule.id}`\n")
            text.append(f"{rule.checks}\n")
            items = [
                f"- Applies where {rule.applies}.",
                f"- Source ({rule.tag}): {rule.source}.",
                f"- Asks: {rule.question}",
            ]
            if rule.caution:
                items.append(f"- Caution: {rule.caution}")
            if rule.blocking:
                items.append("- Export waits for this one.")
            for example in examples().get(rule.id, []):
                items.append(f"- Example ({example['case']}): {example['outcome']}. {example['message']}")
            text.append("\n".join(items) + "\n")
    return "\n".join(text)


def published() -> str:
    """Return the reference page as it is stored beside the rules."""
    return (resources.files("dictate.checks") / "RULES.md").read_text(encoding="utf-8")
