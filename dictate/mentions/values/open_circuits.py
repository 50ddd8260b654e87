"""Whether "open" is what a meter said; doors, valves and switches stand open as well."""

from __future__ import annotations

from dictate.mentions.labels import find_components, find_points
from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import find_numbers
from dictate.mentions.values.rows import COUNTS, full_stop, ohms_row, row_ohmed
from dictate.mentions.word_lists import word_list

_METER = word_list("values_meter")
_SWITCHES = word_list("values_switches")


def is_open(narration: Narration, words: list[str], a: int, b: int) -> bool:
    """Tell whether "open" and the like is what a meter says."""
    said = " ".join(words[a:b])
    before = words[max(0, a - 3) : a]
    after = words[b : b + 2]
    last = before[-1] if before else ""
    if {"if", "should", "would"} & set(before):
        return False
    if said not in {"open", "oh well", "out of range", "open line"}:
        return True
    if said == "open" and _laid_open(words, a):
        return False
    if last == "to" and _from_ohms(narration, a):
        return True
    if said == "open" and _conductor_said(narration, words, a, b):
        return True
    if said == "oh well":
        if any(p.kind in {"winding", "ground"} and 0 <= a - p.end <= 2 for p in find_points(narration)):
            return True
        return bool({"reads", "read", "reading", "meter", "shows"} & set(before))
    if _winding_said(narration, words, a):
        return True
    counted = last in COUNTS or last.isdigit() or last in {"a", "b", "c"}
    if counted and before[-2:-1] in ([","], ["."], ["and"], [";"]) and ohms_row(narration, words, a):
        return True  # "one is 172, two 174, three open"
    if last in {"coil", "winding", "windings", "element"} and (
        not after or after[0] in {".", ",", "so", ";"}
    ):
        return before[-2:-1] != ["the"] or not {"valve", "stuck"} & set(words[max(0, a - 8) : a])
    copula = last in {
        "is",
        "was",
        "'s",
        "reads",
        "read",
        "tests",
        "tested",
        "measured",
        "measures",
        "checks",
        "checked",
    }
    if copula and before[-2:-1] and before[-2] in {"coil", "winding", "windings", "element"}:
        return True
    if last == "at" and before[-2:-1] and before[-2] in {"ohms", "ohmed", "reads", "meters", "out"}:
        return True  # "the coil ohms at open"
    if last in word_list("values_is_open_5") and last not in {"to"}:
        return False
    if last == "to" and not any(p.end == a for p in find_points(narration)):
        return False
    goes_on = after[:1] and after[0] in word_list("values_is_open_4")
    metered_list = goes_on and after[0] == "and" and last in _METER
    while_said = goes_on and after[0] in {"when", "all", "for"} and last in {"is", "was", "reads", "'s"}
    if goes_on and not metered_list and not while_said:
        return False
    if word_list("values_is_open_3") & set(words[max(0, a - 4) : a]):
        coil = {"coil", "ohms", "reads", "winding", "solenoid", "meter"} & set(words[max(0, a - 6) : b + 2])
        coil |= {"contactor"} & set(words[max(0, a - 4) : a]) if "coil" in words[max(0, a - 3) : a] else set()
        if not coil or "door" in before or "wide" in before or "stuck" in before:
            return False
    point = any(
        p.kind in {"winding", "ground", "legs"} and 0 <= a - p.end <= 3 for p in find_points(narration)
    )
    if point:
        return True
    point_after = any(p.kind in {"winding"} and 0 <= p.start - b <= 2 for p in find_points(narration))
    if point_after:
        return True
    comps = [
        c
        for c in find_components(narration)
        if c.end <= a and a - c.end <= 14 and not full_stop(words, c.end, a)
    ]
    comp = comps[-1].name if comps else None
    metered = bool(word_list("values_is_open_2") & set(words[max(0, a - 8) : b + 3]))
    if comp in _SWITCHES or (
        comp is not None and metered and not comps[-1].name.startswith(("disconnect", "breaker", "contactor"))
    ):
        found = comps[-1]
        concluded = words[max(0, found.start - 3) : found.start]
        if found.end == a and {"that's", "it's", "'s"} & set(concluded) and concluded[-1:] == ["the"]:
            return False  # "so that's the overload open inside" is a conclusion
        return last in _METER or found.end == a or last in {"one", ","}
    prop = word_list("values_is_open") & set(before)
    if comp is None and last in {"it", "one", "winding", "windings", "element", "reads", "read"} and not prop:
        return True
    ohms = {"ohm", "ohms", "ohmed", "meter", "continuity"} & set(words[max(0, a - 30) : b + 3])
    if (
        last in {"is", "was", "'s", "reads"}
        and before[-2:-1]
        and before[-2] in {"it", "one", "that", "first", "second", "third", "fourth", "other", "she"}
        and ohms
    ):
        return True
    return comp is None and metered and last in {"reads", "read", "was", "is", "'s", "ohmed"}


def _laid_open(words: list[str], a: int) -> bool:
    """Tell whether a machine stood open while work was done: "blew it out while I had it open"."""
    if a > 1 and words[a - 1] in {"it", "them", "her", "him", "everything"}:
        return words[a - 2] in {"had", "have", "got", "kept", "keep", "with", "left"}
    k = a - 1
    while k >= 0 and a - k < 8 and words[k] not in {",", ".", ";", "?", "!"}:
        if words[k] in {"while", "whilst"}:
            return words[a - 1] in {"was", "is", "'s"} or words[a - 1] not in _METER
        k -= 1
    return False


def _from_ohms(narration: Narration, a: int) -> bool:
    """Read "went from 10 K to | open" as what a meter said: ohms stand in front of the "to"."""
    numbers = [n for n in find_numbers(narration) if 0 <= a - 1 - n.end <= 1]
    return bool(numbers) and narration.lowers[a - 2] in {"k", "ohm", "ohms", "kilohms", "meg"}


def _conductor_said(narration: Narration, words: list[str], a: int, b: int) -> bool:
    """Tell whether "open" was said of something that should conduct, or of one of a row that was ohmed.

    As in "that coil read wide open", "second one's eighteen point eight, the third's wide open". Doors and
    valves stand open as well, so the thing itself has to be named, or ohms of its neighbours.
    """
    i = a
    while i > 0 and words[i - 1] in word_list("values_open_adverbs"):
        i -= 1
    if words[b : b + 1] and words[b] in word_list("values_is_open_4") - {"and", "for", "all", "a", "the"}:
        return False
    on = words[b : b + 1] in (["on"], ["through"], ["across"], ["for"])
    if on and row_ohmed(narration, words, a):
        after = [w for w in words[b + 1 : b + 4] if w not in {"the", "that"}]
        if after and after[0] in word_list("values_row_names"):
            return True
        if i == 0 or words[i - 1] not in word_list("values_conductors"):
            return False  # "windings wide open on that motor" names what should conduct
    j = i
    while j > 0 and words[j - 1] in word_list("values_open_verbs"):
        j -= 1
    if j == 0 or (j < i and {"left", "be", "not", "if", "when"} & set(words[j:i])):
        return False
    subject = words[j - 1]
    lead = words[max(0, j - 4) : j - 1]
    if word_list("values_is_open") & set(lead) or {"if", "when", "with", "leave", "held"} & set(lead):
        return False
    if subject in word_list("values_conductors") or (subject == "overload" and i < a):
        if j == a and lead[-2:] in (["at", "the"], ["on", "the"], ["across", "the"], ["to", "the"]):
            return False  # "twenty five volts at the coil open and twenty four pulled in"
        return not word_list("values_no_conductors") & set(lead[-1:])
    near = [c for c in find_components(narration) if c.end <= j]
    last = near[-1] if near else None
    if last is not None and last.end == j and not {"valve", "door", "switch"} & set(last.name.split()):
        return any(w in last.name for w in ("heater", "element", "transformer", "sensor"))
    here = words[max(0, j - 12) : j]
    here = here[max((k for k, w in enumerate(here) if w in {"?", "!"}), default=-1) + 1 :]
    if subject in {"it", "it's"} and {"ohmed", "metered", "rang"} & set(here[-9:]):
        return True  # "ohmed the middle motor and it's wide open"
    if subject == "it" or (subject in {",", "and"} and here.count(".") == 0 and a - i >= 1):
        return bool(word_list("values_conductors") & set(here)) or row_ohmed(narration, words, a)
    if subject in word_list("values_row_names") or subject.isdigit():
        return row_ohmed(narration, words, a)
    if last is not None and last.end == j:
        return row_ohmed(narration, words, a) and not {"door", "switch"} & set(last.name.split())
    if subject in {",", "and", ":", "circuit"}:
        number = next((n for n in find_numbers(narration) if 0 <= j - 1 - n.end <= 1), None)
        if number is not None:
            return row_ohmed(narration, words, a) or _from_ohms(narration, j)
        return bool({"coil", "winding", "element", "overload", "leads"} & set(here[-9:])) and j == i
    return False


def _winding_said(narration: Narration, words: list[str], a: int) -> bool:
    """Tell whether two terminals were named just before: "common to run, nothing, wide open"."""
    for p in find_points(narration):
        if p.kind not in {"winding", "ground"} or not 0 <= a - p.end <= 5:
            continue
        gap = words[p.end : a]
        if not {".", "?", "!", ";", "but", "if", "the", "for"} & set(gap):
            return not any(p.end <= n.start < a for n in find_numbers(narration))
    return False
