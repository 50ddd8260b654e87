"""What a short word is a part of: a core of a valve or of a drier, a cap of a port, a line of a drain.

And which part a short word is, where the trade has several of that name: a pump that was brazed in, the
filter of a circuit that was opened.
"""

from __future__ import annotations

from collections.abc import Mapping

from dictate.mentions.patterns import Words
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import word_set

_BACK, _ON = 70, 12
"""Words before and behind "core" in which a drier or a valve tells whose it is."""
_CIRCUIT = 60
"""Words before a filter in which the circuit was opened."""


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


def sized_cap(words: Words, i: int) -> bool:
    """Tell whether a cap is a capacitor by its size in front: "stuck a four mike cap on"."""
    return i > 0 and words.words[i] in ("cap", "caps") and words.words[i - 1] in word_set("microfarads")


def cap_of_port(words: Words, i: int) -> bool:
    """Tell whether "cap" is a valve's cap: ports are spoken of here, and no capacitor was."""
    row = words.words
    if sized_cap(words, i):
        return False
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
    return any(w in words.places for w in signs) or any(
        words.words[k : k + 2]
        in (("run", "caps"), ("start", "caps"), ("both", "caps"), ("discharged", "the"))
        for k in range(len(words.words) - 1)
    )


def tells_which_one(words: Words, i: int, hit: tuple[int, str]) -> bool:
    """Tell whether a heat exchanger only tells which one a part is: "new fan's in, an evaporator one"."""
    return (
        hit in ((1, "evaporator coil"), (1, "condenser coil"))
        and words.words[i - 1 : i] in (("a",), ("an",), ("the",))
        and words.words[i + 1 : i + 2] in (("one",), ("ones",))
    )


_BEFORE_A_DUAL = word_set("before_a_dual")
_BEHIND_A_DUAL = (
    (",",),
    (".",),
    (),
    ("in",),
    ("out",),
    ("is",),
    ("'s",),
    ("was",),
    ("reads",),
    ("read",),
    ("and",),
)


def filter_of_circuit(words: Words, i: int) -> bool:
    """Tell whether "filter" is the drier: a circuit was opened just before, and no air or water is spoken of.

    "Cut the compressor out ... the new one in with its relay. New filter too."
    """
    row = words.words
    told = row[max(0, i - _CIRCUIT) : i]
    near = (*told, *row[i : i + _ON])
    if any(w in word_set("filters_of_air_or_water") for w in near):
        return False
    opened = any(w in word_set("opens_a_circuit") for w in told)
    return opened and any(w in ("compressor", "valve", "txv", "capillary") for w in told)


def is_a_tool(words: Words, i: int) -> bool:
    """Tell whether a word is of the technician's own tools: "pocket probe", "the core tool was loose"."""
    row = words.words
    if row[i] == "thermometer" and "my" in row[max(0, i - 3) : i]:
        return True  # "with my own thermometer"
    if row[i] in ("probe", "probes"):
        return i > 0 and row[i - 1] in word_list("labels_own_probes")
    return row[i] == "core" and row[i + 1 : i + 2] in (("tool",), ("tools",), ("remover",), ("puller",))


def is_none_here(words: Words, i: int) -> bool:
    """Tell whether the name at word i is of no part here: of a tool, in a simile, or a word of plain talk."""
    row = words.words
    word, before = row[i], row[i - 1 : i]
    if word in ("can", "cans"):
        return not _can_of_capacitor(row, i)
    if word in ("rod", "rods") and before != ("heater",):
        close = word_list("labels_other_rods") | word_set("opens_by_flame")
        beside = row[max(0, i - 25) : i + 8]
        return not close.isdisjoint(beside) and word_list("labels_heating_talk").isdisjoint(beside)
    if word == "drain" and words.opens(i) and row[i + 1 : i + 2] in (("it",), ("the",), ("them",), ("that",)):
        return row[i + 2 : i + 3] not in (("pan",), ("line",), ("heater",))  # "Drain it. Cover off."
    if word in ("dryer", "dryers"):
        return before in (("hair",), ("hand",), ("clothes",), ("blow",))
    if row[max(0, i - 2) : i] == ("as", "a") and i > 2:
        # "stiff as a board"; not "wired as a switch", "same as a relay"
        return row[i - 3] not in word_set("stands_before_as") and row[i - 3] not in (".", ",")
    return is_a_tool(words, i)


def _can_of_capacitor(row: tuple[str, ...], i: int) -> bool:
    """Tell whether "can" is a capacitor: an old or a new one, one that is bled or reads something."""
    before, behind = row[i - 1 : i], row[i + 1 : i + 2]
    if behind and behind[0] in word_set("of_another_can"):
        return False  # "the can of nitrogen", "a new can on the scale"
    if before in (("old",), ("auld",), ("new",), ("dual",), ("bad",), ("bulged",), ("swollen",)):
        return any(w in word_set("signs_of_a_can") for w in row[max(0, i - 150) : i + 40])
    bled = any(w in word_set("bleeds_a_can") for w in row[max(0, i - 3) : i])
    shows = behind and (behind[0] in word_set("shows_of_a_can") or behind[0] == ",")
    return bled or (bool(shows) and before in ((".",), (",",), ("the",)) and row[i - 2] not in ("to", "on"))


def marked_by_a_range(words: Words, i: int) -> bool:
    """Tell whether a capacitor is marked "88 to 108": a start capacitor, for others have one value."""
    row = words.words
    for k in range(max(1, i - 200), min(len(row) - 1, i + 25)):
        ranged = row[k] == "to" and _is_number(row[k - 1]) and _is_number(row[k + 1])
        if ranged and not word_set("printed_on_it").isdisjoint(row[max(0, k - 8) : k]):
            return True
    return False


def _is_number(word: str) -> bool:
    return word[0].isdigit() or word.split("-")[0] in word_set("number_words")


def told_to_stay(words: Words, end: int) -> bool:
    """Tell whether the part named before word `end` stays in: "run cap, twenty-four six. He's staying"."""
    told = words.words[end : end + 24]
    return any(told[k] in ("'s", "is") and told[k + 1] in word_set("stays_in") for k in range(len(told) - 1))


def valve_by_signs(words: Words, i: int) -> str | None:
    """Return the valve that a bare "valve" is by what was just spoken of; None where nothing tells."""
    row = words.words
    if any(w in word_set("expansion_signs") for w in row[max(0, i - 120) : i + 40]):
        return "expansion valve"
    if any(row[k : k + 2] == ("hot", "gas") for k in range(max(0, i - 40), i)):
        return "hot gas valve"
    if any(w in word_set("inlet_signs") for w in row[max(0, i - 90) : i]):
        return "water inlet valve"
    return None


def is_no_part_alone(words: Words, i: int, recent: Mapping[str, int]) -> bool:
    """Tell whether a word is a part only beside another: the wheel of a blower, the basket of a strainer."""
    word = words.words[i]
    if word in ("dual", "duals"):
        # "new dual in", "the dual reads": the capacitor; "a dual fan" is none
        alone = (
            words.words[i + 1 : i + 2] in _BEHIND_A_DUAL and i > 0 and words.words[i - 1] in _BEFORE_A_DUAL
        )
        return not alone
    if word == "basket":
        return "strainer" not in recent
    if word != "wheel":
        return False
    told = words.words[max(0, i - 150) : i]
    beside = words.words[max(0, i - 2) : i]
    blower = any(w in ("blower", "blowers", "squirrel") for w in told)
    return not blower or any(w in word_set("other_wheels") for w in beside)


def named_otherwise(words: Words, i: int, length: int, name: str, recent: Mapping[str, int]) -> str:
    """Return the part that a short name is here: a compressor called the pump, a controller of fans."""
    row = words.words
    if length != 1:
        return name
    if (
        name == "pump"
        and row[i] == "pump"
        and row[i - 1 : i]
        and row[i - 1] in word_set("before_a_brazed_pump")
    ):
        start, end = words.sentences[words.sentence_of[i]]
        brazed = any(w in word_set("brazing_pasts") for w in row[start:end])
        return "compressor" if brazed else name  # "cut the old pump out, brazed the new one in"
    if row[i] == "cap" and row[i + 1 : i + 2] != ("tube",) and _capillary_last(row, i, recent):
        return "capillary tube"  # "the cap tube's coming out, all of it. New cap in"
    if row[i] == "controller":
        fans, box = recent.get("fan speed controller", -1), recent.get(name, -1)
        if fans > box and i - fans < _CIRCUIT * 2:
            return "fan speed controller"
    return name


def _capillary_last(row: tuple[str, ...], i: int, recent: Mapping[str, int]) -> bool:
    """Tell whether a cap put in is the capillary's: one was spoken of just before, and no capacitor ever."""
    k = recent.get("capillary tube", -_CIRCUIT)
    if i - k >= _CIRCUIT or not {"run capacitor", "start capacitor", "capacitor"}.isdisjoint(recent):
        return False
    return row[i - 1 : i] in (("new",), ("old",), ("fresh",))
