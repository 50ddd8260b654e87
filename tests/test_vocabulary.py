"""The small lists of words: each is read by some module, and none is empty."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import dictate
from dictate.vocabulary.load import phrases_of, table

HOME = Path(dictate.__file__).parent


@pytest.mark.parametrize("file", ["plain_words", "reading_words", "machine_words", "labour"])
def test_each_list_is_read(file: str) -> None:
    code = "\n".join(p.read_text(encoding="utf-8") for p in HOME.rglob("*.py"))
    # Some names are put together: f"places_{kind}", f"{kind}_behind".
    begun, ended = tuple(re.findall(r'f"([a-z_]+_)\{', code)), tuple(re.findall(r'\}(_[a-z_]+)"', code))
    lists = {name: words for name, words in table(file).items() if isinstance(words, list)}
    assert lists and all(lists.values())
    unread = {n for n in lists if not re.search(f"[\"']{n}[\"']", code)}
    assert not [n for n in unread if not n.startswith(begun) and not n.endswith(ended)]


def test_a_group_stands_for_each_of_what_it_holds() -> None:
    assert phrases_of("(hose|bag) (was|lay) on the scale") == [
        "hose was on the scale",
        "hose lay on the scale",
        "bag was on the scale",
        "bag lay on the scale",
    ]
    assert phrases_of("clamp (|was )half open") == ["clamp half open", "clamp was half open"]
    assert phrases_of("R-1234ze(E)") == ["R-1234ze(E)"]
    assert phrases_of("dead (?:flat|empty)") == ["dead (?:flat|empty)"]


def test_no_group_is_left_in_a_list_that_is_read() -> None:
    assert "hose lay on the scale" in table("corrections")["mistake"]["read"]
    left = [
        (path.stem, said)
        for path in (HOME / "vocabulary").glob("*.toml")
        for said in _strings(table(path.stem))
        if re.search(r"\([^()?]*\|", said)
    ]
    assert not left


def _strings(held: object) -> Iterator[str]:
    if isinstance(held, str):
        yield held
    elif isinstance(held, dict | list):
        for one in held.values() if isinstance(held, dict) else held:
            yield from _strings(one)
