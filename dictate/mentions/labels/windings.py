"""Pairs of winding terminals: "common to run", "C to S", "red to blue"."""

from __future__ import annotations

from functools import cache

from dictate.mentions.labels.point_at import PointAt
from dictate.mentions.narration import Narration
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import table


@cache
def _winding_words() -> dict[str, str]:
    data = table("points")["winding"]
    return {w: name for name in ("common", "run", "start", "ground") for w in data[name]}


_PAIRS = {
    frozenset({"common", "run"}): "common-run",
    frozenset({"common", "start"}): "common-start",
    frozenset({"run", "start"}): "run-start",
    frozenset({"run", "ground"}): "run-ground",
    frozenset({"common", "ground"}): "common-ground",
    frozenset({"start", "ground"}): "start-ground",
}
_COMPACT = {
    "cr": "common-run",
    "cs": "common-start",
    "rs": "run-start",
    "sr": "run-start",
    "rc": "common-run",
    "sc": "common-start",
    "c2r": "common-run",
    "r2c": "common-run",
    "c2s": "common-start",
    "s2c": "common-start",
    "r2s": "run-start",
    "s2r": "run-start",
}
_ARTICLES = frozenset({"the", "a"})


@cache
def winding_firsts() -> frozenset[str]:
    """Return the words that a winding pair begins with."""
    return frozenset((*_winding_words(), *_COMPACT, *table("points")["winding"]["colours"]))


def pair_of_words(first: str, second: str) -> str | None:
    """Return the pair of two windings that are named by one word each: "run" and "start"."""
    names = _winding_words()
    return _PAIRS.get(frozenset({names.get(first, ""), names.get(second, "")}))


def winding_pair(narration: Narration, i: int) -> PointAt | None:
    """Read "common to run", "C to S", "run-start", "start to the shell" at token i."""
    tokens = narration.tokens
    words = _winding_words()
    first = words.get(tokens[i].lower)
    if first is None:
        if tokens[i].text.isupper() and tokens[i].lower in _COMPACT and meter_talk(narration, i):
            return PointAt(i, i + 1, _COMPACT[tokens[i].lower], "winding", frozenset({"resistance"}))
        return pair_of_colours(narration, i)
    j = i + 1
    joined = False
    while j < len(tokens) and tokens[j].lower in word_list("labels_winding"):
        joined = joined or tokens[j].lower in {"to", "-", "/", "2", "and"}
        j += 1
    while j < len(tokens) and tokens[j].lower in _ARTICLES and joined:
        j += 1
    second = words.get(tokens[j].lower) if j < len(tokens) else None
    if second is None or second == first:
        return None
    single = (
        len(tokens[i].lower) == 1 or len(tokens[j].lower) == 1 or tokens[i].lower in {"see", "our", "main"}
    )
    hyphen = tokens[i].text.endswith("-")
    if single and not (joined or hyphen):
        # "C R" needs capitals to be terminals
        if not (tokens[i].text.isupper() and tokens[j].text.isupper() and len(tokens[j].lower) == 1):
            return None
    elif not joined and not hyphen and (first == "ground" or second == "ground"):
        return None
    if tokens[i].lower in {"see", "our"} and tokens[j].lower not in {"s", "r", "our", "c", "see", "ground"}:
        return None
    if first == "run" and tokens[i].lower in {"run", "running"} and second == "ground" and not joined:
        return None
    pair = _PAIRS.get(frozenset({first, second}))
    if pair is None or (single and _thermostat_talk(narration, i)):
        return None
    end = j + 1
    if end < len(tokens) and tokens[end].lower in {"capacitor", "cap", "caps", "capacitors", "relay"}:
        return None
    kind = "ground" if "ground" in pair else "winding"
    return PointAt(i, end, pair, kind, frozenset({"resistance", "voltage"}))


def _thermostat_talk(narration: Narration, i: int) -> bool:
    """Tell whether R and C are terminals of a thermostat: "R to C 24, Y to C zero"."""
    near = narration.tokens[max(0, i - 12) : i + 12]
    if {t.lower for t in near} & {"ohm", "ohms", "winding", "windings", "ohmed", "start", "s"}:
        return False
    return any(t.text in {"Y", "G", "W"} for t in near) or "thermostat" in {t.lower for t in near}


def pair_of_colours(narration: Narration, i: int) -> PointAt | None:
    """Read two wires told by colour at token i: "black to brown", "brown purple" in a row of such pairs."""
    tokens = narration.tokens
    colours = table("points")["winding"]["colours"]
    if tokens[i].lower not in colours or i + 1 >= len(tokens):
        return None
    j = i + 1
    joined = tokens[j].lower in {"to", "and", "-"}
    if joined:
        j += 2 if j + 1 < len(tokens) and tokens[j + 1].lower == "the" else 1
    row = any(t.lower in colours for t in tokens[max(0, i - 12) : i])
    if (
        j >= len(tokens)
        or tokens[j].lower not in colours
        or not (joined or row or tokens[i].text.endswith("-"))
    ):
        return None
    if tokens[j].lower == tokens[i].lower or not meter_talk(narration, i):
        return None
    names = sorted((tokens[i].lower, tokens[j].lower))
    return PointAt(i, j + 1, "-".join(names), "winding", frozenset({"resistance", "voltage"}))


def meter_talk(narration: Narration, i: int) -> bool:
    """Tell whether the words around token i are of a meter on windings."""
    near = {t.lower for t in narration.tokens[max(0, i - 15) : i + 15]}
    return bool(near & word_list("labels_meter_talk"))
