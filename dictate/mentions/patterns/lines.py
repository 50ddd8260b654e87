"""A line of a vocabulary file, compiled; the language stands on top of the folder."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from dictate.errors import RecordError
from dictate.mentions.patterns.verbs import verb_forms
from dictate.mentions.patterns.words import NUMBER_WORDS, STOPS

# A gap never runs over these: they begin a new thought.
_BREAKS = (
    r"and|or|but|then|so|because|cause|while|if|when|before|after|until|unless|since|although|i|we|they|he|she|"
    r"once|instead|without|which|who|that's|i'll|we'll|i've|we've|i'm|we're|"
    # Verbs of the work begin a new thought too, where a recogniser left the commas out.
    r"pulled|recovered|brazed|charged|weighed|replaced|checked|valved|evacuated|cleaned|told|plugged|killed|"
    r"unplugged|locked|swapped|changed|installed|washed|added|ran|leak-checked|pressurized"
)
_GAP_WORD = rf"(?: (?!(?:{_BREAKS}|[.,;:?!]) )\S+)"
_LOOSE_WORD = r"(?: (?![.?!;] )\S+)"
_NUMBER_WORD = r"(?: (?:\d[\d.,/:]*|" + "|".join(sorted(NUMBER_WORDS, key=len, reverse=True)) + r")(?= ))"
_NUMBER = _NUMBER_WORD + r"(?:(?: and| a)?" + _NUMBER_WORD + r")*"


@dataclass(frozen=True, slots=True)
class Pattern:
    """A compiled line: what it means (`label`), its first words, and the expression.

    `first` holds each first word with the words one of which stands behind it, None where any word may.
    Of each set of `needs` one word is said in the same stretch between full stops.
    """

    label: str
    line: str
    first: dict[str, frozenset[str] | None]
    needs: tuple[frozenset[str], ...]
    expression: re.Pattern[str]
    verbless: bool
    opens: bool = False


def _phrases(lists: dict[str, Any], name: str, line: str) -> list[str]:
    if name not in lists:
        raise RecordError(
            f"pattern {line!r} names the list @{name}, which the file does not have.", "Add it."
        )
    return [str(p) for p in lists[name]]


def _alternation(options: Iterable[str]) -> str:
    made = sorted({" ".join(o.lower().split()) for o in options}, key=len, reverse=True)
    return "(?:" + "|".join(" " + re.escape(o).replace("\\ ", " ") for o in made) + ")"


@cache
def _forms(verb: str, only: str) -> tuple[str, ...]:
    forms = verb_forms().get(verb)
    if forms is None:
        raise RecordError(
            f"the verb {verb!r} is used in a pattern and is not in verbs.toml.", "Add it there."
        )
    kinds = {"": ("base", "past", "ing", "third"), "ed": ("past",), "ing": ("ing",)}[only]
    return tuple(dict.fromkeys(w for kind in kinds for w in forms[kind]))


_SHORT = {
    "minutes": ("minutes", "minute", "min", "mins"),
    "hours": ("hours", "hour", "hrs", "hr", "h"),
    "microns": ("microns", "micron", "micrometers"),
}
_VERB = re.compile(r"([a-z-]+)!(ed|ing)?")


def compile_pattern(label: str, line: str, lists: dict[str, Any] | None = None) -> Pattern:
    """Compile one line; RecordError names what is wrong with it."""
    lists = lists or {}
    expression = ""
    begins: list[tuple[list[str] | None, bool]] = []
    headed = False
    nodes = line.split()
    opens = nodes[0] == "^"
    for number, node in enumerate(nodes[1:] if opens else nodes):
        optional = node.startswith("?")
        node = node[1:] if optional else node
        options: list[str] | None = None
        if node == "~":
            piece = _GAP_WORD + "{0,4}?"
        elif node == "~~":
            piece = _GAP_WORD + "{0,8}?"
        elif node == "~,":
            piece = _LOOSE_WORD + "{0,8}?"
        elif node == "#":
            piece = _NUMBER
        elif "!" in node:
            options = []
            for alternative in node.split("/"):
                match = _VERB.fullmatch(alternative)
                options += _forms(match.group(1), match.group(2) or "") if match else [alternative]
            piece = _alternation(options)
            if not headed:
                piece = f"(?P<verb>{piece})"
                headed = True
        elif node.startswith("@"):
            options = _phrases(lists, node[1:], line)
            piece = _alternation(options)
        else:
            options = [w for o in node.split("/") for w in _SHORT.get(o, (o,))]
            piece = _alternation(options)
        if number == 0:
            if node == "#":
                options = ["#"]
            if options is None or optional:
                raise RecordError(
                    f"pattern {line!r} begins with a gap or an optional word.", "Begin with a word."
                )
        begins.append((options, optional))
        expression += f"(?:{piece})?" if optional else piece
    return Pattern(
        label,
        line,
        _first_words(begins),
        _needed(begins),
        re.compile(expression + r"(?= )"),
        not headed,
        opens,
    )


def _needed(nodes: list[tuple[list[str] | None, bool]]) -> tuple[frozenset[str], ...]:
    """Return the words that begin each node behind the first, the fewest first; none if marks are matched."""
    if any(STOPS & set(o.split()) for node, _ in nodes for o in node or ()):
        return ()
    sets = [
        frozenset(o.lower().split()[0] for o in node) for node, optional in nodes[1:] if node and not optional
    ]
    return tuple(sorted(sets, key=len))


def _first_words(nodes: list[tuple[list[str] | None, bool]]) -> dict[str, frozenset[str] | None]:
    """Return the first words of a pattern with those that may follow each, None where any word may.

    `nodes` are the options of each node, None for a gap or a number, and whether it may be missing.
    """
    starts: set[str] = set()
    behind: set[str] | None = None  # where the pattern may end with its first node
    for options, optional in nodes[1:]:
        if options is None:
            break
        starts.update(o.lower().split()[0] for o in options)
        if not optional:
            behind = starts
            break
    first: dict[str, frozenset[str] | None] = {}
    for option in nodes[0][0] or ():
        word, *rest = option.lower().split()
        follows = {rest[0]} if rest else behind
        known = first.get(word, frozenset())
        first[word] = None if follows is None or known is None else known | follows
    return first


def compile_all(label: str, lines: Sequence[str], lists: dict[str, Any] | None = None) -> list[Pattern]:
    """Compile several lines under one label."""
    return [compile_pattern(label, line, lists) for line in lines]
