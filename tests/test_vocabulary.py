"""The small lists of words: each is read by some module, and none is empty."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import dictate
from dictate.vocabulary.load import table

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
