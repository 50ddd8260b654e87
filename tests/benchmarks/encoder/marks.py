"""Snippets: short pieces of talk in which something is marked, "Box was {temperature: forty}"."""

from __future__ import annotations

import re

_MARK = re.compile(r"\{([^:{}]+): ([^{}]+)\}")


def unmarked(piece: str) -> tuple[str, list[tuple[int, int, str]]]:
    """Return the words of a snippet, and its marks: the first and the last word of each, and its kind."""
    text, marks, end = "", [], 0
    for mark in _MARK.finditer(piece):
        text += piece[end : mark.start()]
        first = len(text.split()) - (not text[-1:].isspace() and bool(text))
        text += mark[2]
        marks.append((first, len(text.split()) - 1, mark[1]))
        end = mark.end()
    return text + piece[end:], marks


__all__ = ["unmarked"]
