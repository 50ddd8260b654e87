"""What a short word is a part of: a core of a valve or of a drier, a cap of a port, a line of a drain."""

from __future__ import annotations

from dictate.mentions.patterns import Words
from dictate.vocabulary.load import word_set

_BACK, _ON = 70, 12
"""Words before and behind "core" in which a drier or a valve tells whose it is."""


def core_of_drier(words: Words, i: int) -> bool:
    """Tell whether the "core" at word i is a filter drier's: a drier was spoken of later than any port."""
    drier, port = word_set("drier_core_signs"), word_set("valve_core_signs")
    row = words.words
    for k in (i - 1, i + 1):
        if 0 <= k < len(row) and row[k] in word_set("beside_valve_core"):
            return False  # "core tool", "valve core"
    for k in range(i - 1, max(-1, i - _BACK), -1):
        if row[k] in ("core", "cores"):
            return core_of_drier(words, k)  # the one spoken of before
        if row[k] in port:
            return False
        if row[k] in drier:
            return True
    behind = row[i + 1 : i + 1 + _ON]
    return any(w in drier for w in behind) and not any(w in port for w in behind)


def cap_of_port(words: Words, i: int) -> bool:
    """Tell whether "cap" is a valve's cap: ports are spoken of here, and no capacitor was."""
    row = words.words
    near = row[max(0, i - 8) : i + 8]
    beside = row[max(0, i - 4) : i]
    if any(w in ("schrader", "schraders", "depressor") for w in beside):
        return True  # "changed the schrader and new cap"
    if row[i] == "caps" and row[i + 1 : i + 2] == ("on",) and row[i - 1 : i] == ("the",):
        return True  # "while I put the caps on": a capacitor goes in
    if not any(w in word_set("valve_cap_signs") for w in near):
        return row[i + 1 : i + 3] in (("are", "on"), ("back", "on"), ("on", "."), ("on", ","))
    return not any(w in word_set("capacitor_signs") for w in row[max(0, i - 120) : i])


def line_of_drain(words: Words, i: int) -> bool:
    """Tell whether "line" alone is the drain's: it is cleaned, and a drain or a pan was just spoken of."""
    row = words.words
    if row[i - 1 : i] and row[i - 1] not in word_set("before_bare_line"):
        return False  # "suction line", "low side line"
    near = (*row[max(0, i - 4) : i], *row[i + 1 : i + 4])
    if not any(w in word_set("clears_a_line") for w in near):
        return False
    told = (*row[max(0, i - 30) : i], *row[i + 1 : i + 12])
    return any(w in word_set("drain_signs") for w in told) and "nitrogen" not in told


def speaks_of_capacitors(words: Words) -> bool:
    """Tell whether a narration speaks of capacitors at all."""
    signs = (
        "capacitor",
        "capacitors",
        "microfarad",
        "microfarads",
        "mfd",
        "uf",
        "herm",
        "cap",
        "hard",
        "dual",
    )
    return any(w in signs for w in words.words) or any(
        words.words[k : k + 2]
        in (("run", "caps"), ("start", "caps"), ("both", "caps"), ("discharged", "the"))
        for k in range(len(words.words) - 1)
    )
