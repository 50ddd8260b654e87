"""Whether "nothing", "dead", "no voltage" is what a meter said, or talk."""

from __future__ import annotations

from dictate.mentions.labels import find_components, find_points
from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import find_numbers
from dictate.mentions.values.ohms_spoken import speaks_of_ohms
from dictate.mentions.values.rows import full_stop, one_of_a_row
from dictate.mentions.word_lists import word_list

_PLACE = word_list("values_place")
_ELECTRIC_PLACES = word_list("values_electric_places")
_LIVE = word_list("values_live")
_EACH = frozenset(("all", "both", "each", "every", "either", "three", "two"))
_METERS = frozenset(
    ("meter", "tester", "voltmeter", "multimeter", "checked", "tested", "volts", "voltage", "probes")
)


def _on_each_of_them(words: list[str], a: int, b: int) -> bool:
    """Read "meter on both legs, | nothing on either": no volts on what is under the meter."""
    if words[b : b + 1] != ["on"] or b + 1 >= len(words) or words[b + 1] not in _EACH | {"any", "them"}:
        return False
    if words[b + 2 : b + 3] not in (["."], [","], ["of"], ["one"], [";"], ["and"]):
        return False
    lead = words[max(0, a - 10) : a]
    lead = lead[max((i for i, w in enumerate(lead) if w in {".", "?", "!"}), default=-1) + 1 :]
    return bool(_METERS & set(lead)) and not word_list("values_dead_at").isdisjoint(lead)


def _volts_before(narration: Narration, a: int) -> bool:
    """Tell whether a number of the size of a supply or of a control circuit was said shortly before."""
    return any(
        0 <= a - n.end <= 16 and (105 <= n.value <= 130 or 198 <= n.value <= 250 or 22 <= n.value <= 29)
        for n in find_numbers(narration)
    )


def _volts_told(words: list[str], a: int) -> bool:
    """Tell whether the sentence told of volts before: "118 volts at its plug and | no current whatsoever"."""
    lead = words[max(0, a - 16) : a]
    lead = lead[max((i for i, w in enumerate(lead) if w in {".", "?", "!"}), default=-1) + 1 :]
    return not _VOLTS.isdisjoint(lead)


def _amps_told(words: list[str], a: int) -> bool:
    """Tell whether the sentence reads amps off: "left four amps flat, right dead as a post, | no amps"."""
    lead = words[max(0, a - 18) : a]
    lead = lead[max((i for i, w in enumerate(lead) if w in {".", "?", "!"}), default=-1) + 1 :]
    return not {"amps", "amp", "draws", "pulls"}.isdisjoint(lead)


_VOLTS = frozenset(("volts", "volt", "v", "voltage", "across", "power"))


def _at_a_place_in_front(words: list[str], a: int) -> bool:
    """Read "At the coil itself, other end of the wire, | nothing" as no volts there."""
    if words[a - 1 : a] != [","]:
        return False
    first = a - 1
    while first > 0 and words[first - 1] not in {".", "?", "!", ";"} and a - first < 14:
        first -= 1
    lead = words[first : a - 1]
    while lead and lead[0] in {"and", "but", "then", "so", ","}:
        lead = lead[1:]
    if not {"i", "i'd", "i've", "had", "got", "test"}.isdisjoint(lead):
        return False  # "on the coil I had 25.4, and the magnet test, nothing"
    return lead[:1] in (["at"], ["across"], ["on"]) and not _ELECTRIC_PLACES.isdisjoint(lead)


_NOUGHTS = (["zero"], ["0"], ["0.0"], ["nought"])
_OF_THINGS = word_list("values_dead_things")
_LEAK_TALK = 24
"""Words within which a search for leaks is still under talk."""


def _of_leaks(words: list[str], a: int, b: int) -> bool:
    """Tell whether "nothing" is what a search for leaks gave: "leak search. Nothing at the condenser"."""
    near = words[max(0, a - _LEAK_TALK) : a]
    said = [i for i, w in enumerate(near) if w in word_list("values_leak_talk")]
    behind = words[b : b + 6]
    behind = behind[: next((i for i, w in enumerate(behind) if w in {".", "?", "!", ";"}), len(behind))]
    return bool(said) and word_list("values_leak_ends").isdisjoint([*near[said[-1] :], *behind])


def _between_legs(after: list[str]) -> bool:
    """Tell whether "no voltage | leg to leg", "| phase to phase", "| line to line" follows."""
    return (
        after[1:2] == ["to"]
        and bool(after[2:3])
        and after[0] in _LEGS
        and after[2] in _LEGS | {"ground", "earth"}
    )


_LEGS = frozenset(("leg", "line", "phase", "hot", "pole", "live", "neutral", "l1", "l2", "l3"))


def _nothing_done(words: list[str], b: int) -> bool:
    """Tell whether a sentence says that nothing was done: "nothing on the refrigerant side was opened"."""
    for i in range(b, min(b + 9, len(words) - 1)):
        if words[i] in {".", "?", "!", ",", ";"}:
            return False
        if words[i] in {"was", "were", "got", "been"} and words[i + 1] in word_list("values_nothing_done"):
            return True
    return False


_ENDS = frozenset((".", ",", ";", "!", "?", "so", "and", "but"))


_MEASURED = frozenset(("measured", "reads", "read", "shows", "showed", "metered", "meter"))


def _does(after: list[str]) -> bool:
    """Tell whether "nothing" is who does something: "nothing moves", "nothing comes on"."""
    if not after or after[0] not in word_list("values_nothing_does"):
        return False
    return after[0] not in {"comes", "came", "goes"} or after[1:2] in (["on"], ["off"], ["in"])


def _comes_through(words: list[str], a: int, b: int) -> bool:
    """Read "one twenty going in and | nothing coming out of the timer" as no volts there."""
    after = [w for w in words[b : b + 4] if w not in {"is", "'s", "was", "comes", "gets"}]
    if after[:1] not in (["coming"], ["going"], ["getting"], ["out"], ["through"], ["past"]):
        return False
    if not {"out", "through", "past", "across", "off", "back", "to"} & set(after[:2]):
        return False
    lead = words[max(0, a - 14) : a]
    lead = lead[max((i for i, w in enumerate(lead) if w in {".", "?", "!"}), default=-1) + 1 :]
    return {"in", "into", "line", "going", "primary", "input", "feeding"}.intersection(lead) != set()


def _electric_test(words: list[str], a: int) -> bool:
    near = set(words[max(0, a - 18) : a])
    return bool({"voltage", "volts", "power", "meter", "metered", "tester", "dead", "voltmeter"} & near)


_METERS_SHOW = frozenset(("meter", "display", "screen", "reads", "says", "shows", "tester"))
_METER_IDLES = frozenset(
    ("just", "sits", "sitting", "sat", "there", "on", "at", "still", "stays", "display", "screen", "tester")
)


def _opens_behind(words: list[str], b: int) -> bool:
    """Tell whether "it don't read nothing, | wide open" says itself that the circuit is open."""
    shown = words[b : b + 12]
    shown = shown[: next((i for i, w in enumerate(shown) if w in {".", "?", "!", ";", "and"}), len(shown))]
    if shown[:1] in ([","], ["-"]) and not _METERS_SHOW.isdisjoint(shown):
        rest = [
            w for w in shown if not word_list("told_twice_meter").issuperset((w,)) and w not in _METER_IDLES
        ]
        if rest[:1] in (["ol"], ["infinity"], ["infinite"]) or rest[:2] in (
            ["o", "l"],
            ["over", "range"],
            ["over", "limit"],
        ):
            return True  # "T2 to T3, nothing, meter just sits there on OL"
    rest = [w for w in words[b : b + 4] if w not in {",", "-", "it", "is", "'s", "it's", "just", "at", "all"}]
    return rest[:2] in (["wide", "open"], ["dead", "open"], ["open", "circuit"], ["o", "l"]) or (
        rest[:1] in (["open"], ["ol"], ["infinite"], ["infinity"]) and words[b : b + 1] in ([","], ["-"])
    )


_CUT_OFF = frozenset(
    ("off", "locked", "out", "pulled", "isolated", "killed", "unplugged", "opened", "lockout")
)


def _on_every_one(behind: list[str]) -> bool:
    """Tell whether a state is of every leg: "dead | on all legs", "| across all three"."""
    if behind[:1] not in (["on"], ["across"], ["at"], ["between"], ["from"]):
        return False
    if behind[1:2] in (["all"], ["both"], ["every"], ["each"]):
        return True
    counted = [w for w in behind[1:4] if w not in {"the", "of"}]
    return counted[:1] in (["three"], ["3"]) and not word_list("values_dead_at").isdisjoint(counted[1:2])


_CAME = frozenset(
    (
        "came",
        "up",
        "out",
        "back",
        "read",
        "reads",
        "showed",
        "shows",
        "gave",
        "had",
        "got",
        "are",
        "were",
        "was",
        "is",
        "all",
        "with",
        "say",
        "said",
    )
)


def all_of_them_came_up(words: list[str], a: int) -> int:
    """Return of how many "checked for voltage and all three came up | nothing" tells; 0 for none."""
    i = a - 1
    while i > 0 and words[i] in _CAME and a - i <= 5:
        i -= 1
    if i < a - 1 and words[i] in word_list("values_dead_at"):
        i -= 1
    counts = {"three": 3, "3": 3, "both": 2, "two": 2}
    counted = counts.get(words[i], 0)
    return counted if i < a - 1 and (words[i] == "both" or words[i - 1 : i] == ["all"]) else 0


def _metered_dead(words: list[str], a: int, b: int) -> bool:
    """Read "locked the disconnect out, metered it, | nothing there" as no volts."""
    if words[b : b + 1] not in (["there"], ["."], [","], [";"], ["on"], ["at"], ["anywhere"]):
        return False
    lead = words[max(0, a - 7) : a]
    cut = max((i for i, w in enumerate(lead) if w in {".", "?", "!"}), default=-1)
    lead = lead[cut + 1 :]
    if word_list("values_metered").isdisjoint(lead) or not word_list("values_ohms_talk").isdisjoint(lead):
        return False
    return not word_list("values_dead_off").isdisjoint(words[max(0, a - 24) : a - 2])


def _meter_or_place(words: list[str], a: int) -> bool:
    """Tell whether a test named its meter or where it was made: "metered the fan leads, | no volts"."""
    lead = words[max(0, a - 7) : a]
    lead = lead[max((i for i, w in enumerate(lead) if w in {".", "?", "!"}), default=-1) + 1 :]
    named = word_list("values_dead_meters") | word_list("values_dead_at") | {"metered", "probed"}
    return not named.isdisjoint(lead)


def _by_a_meter(behind: list[str]) -> bool:
    """Tell whether a meter is named behind a state: "proved it dead | with my meter"."""
    if behind[:1] not in (["with"], ["on"], ["by"]):
        return False
    named = [w for w in behind[1:] if w not in {"the", "my", "a", "own"}]
    return bool(named) and named[0] in word_list("values_dead_meters")


def _tested_dead(words: list[str], a: int) -> bool:
    """Tell whether a meter, or terminals named with the test, showed a circuit dead once switched off.

    As in "locked off, checked the terminals, dead", "meter says dead", "tested dead on all three". A bare
    "proved it dead" is the step alone.
    """
    first = a
    while first > 0 and words[first - 1] not in {".", "?", "!"} and a - first < 12:
        first -= 1
    lead, behind = words[first:a], words[a + 1 : a + 5]
    tests, places = word_list("values_dead_tests"), word_list("values_dead_at")
    if _by_a_meter(behind) and tests & set(lead[-6:]) and "if" not in lead and lead[-1:] != ["for"]:
        after = words[a + 2 : a + 10]
        after = after[: next((i for i, w in enumerate(after) if w in {".", "?", "!", ";"}), len(after))]
        if {"nothing", "zero", "0", "nought", "volts"} & set(after):
            return False  # "proved dead with the tester, nought across the lot": that is the value
        return bool(word_list("values_dead_off") & set(words[max(0, a - 30) : a]))
    others = word_list("values_dead_others")
    near = [
        w
        for w, after in zip(lead[-5:], [*lead[-4:], ""], strict=False)
        if not (w in others and after in places)
    ]
    if others & set(near) or "if" in lead or "for" in lead[-1:]:
        return False  # "the pump lugs" are no pump
    shown = bool(word_list("values_dead_meters") & set(lead)) and lead[-1:] in (
        ["says"], ["said"], ["reads"], ["'s"], ["is"], ["tester"], ["meter"], ["shows"], ["showed"], ["read"],
    )  # fmt: skip
    three = _on_every_one([*behind, *words[a + 4 : a + 6]])
    at = bool(places & set(lead[-4:])) and lead[-1:] in (
        [","], ["'s"], ["is"], ["and"], ["were"], ["are"], ["was"], ["showed"], ["came"],
    )  # fmt: skip
    tested = bool(tests & set(lead[-8:])) or _meter_put_on(lead)
    # "metered the lugs | dead"
    at = at or (
        lead[-2:-1] in (["the"], ["its"], ["my"])
        and lead[-1] in places
        and lead[-3:-2] in (["metered"], ["tested"], ["checked"], ["proved"], ["verified"])
    )
    named = lead[:-1] if lead[-1:] and lead[-1] in tests else lead
    counted = named[-1:] != [] and named[-1] in places and bool(_EACH & set(named[-4:-1]))
    return (shown or (tested and (three or at or counted))) and bool(
        word_list("values_dead_off") & set(words[max(0, a - 30) : a])
    )


def _meter_put_on(lead: list[str]) -> bool:
    """Tell whether a meter was put on something: "put my meter on the pump lugs and she was | dead"."""
    at = next((i for i, w in enumerate(lead) if w in word_list("values_dead_meters")), None)
    if at is None:
        return False
    put = not {"put", "stuck", "had", "hung", "clipped", "stick", "with"}.isdisjoint(
        lead[max(0, at - 3) : at]
    )
    return put and lead[at + 1 : at + 2] in (["on"], ["across"], ["to"])


def _nought_behind(words: list[str], b: int) -> bool:
    """Tell whether the number nought is said in the clauses right behind."""
    behind = words[b : b + 8]
    behind = behind[: next((i for i, w in enumerate(behind) if w in {".", "?", "!", ";"}), len(behind))]
    return any([w] in _NOUGHTS for w in behind)


def _of_the_tester(words: list[str], a: int) -> bool:
    """Tell whether what is dead is the technician's own tool: "my meter's dead", "the battery is dead"."""
    lead = words[max(0, a - 4) : a]
    while lead[-1:] and lead[-1] in {"'s", "is", "was", "went", "just"}:
        lead = lead[:-1]
    if not lead or len(lead) == len(words[max(0, a - 4) : a]):
        return False
    owned = {"my", "the", "other"} & set(lead)
    return lead[-1] in {"battery", "batteries", "phone", "flashlight", "torch"} or (
        lead[-1] in {"meter", "tester", "multimeter", "voltmeter", "clamp"} and bool(owned)
    )


def is_zero(narration: Narration, words: list[str], a: int, b: int) -> bool:
    """Tell whether "nothing", "dead", "no voltage" is what a meter says on a live test."""
    said = " ".join(words[a:b])
    before = words[max(0, a - 8) : a]
    after = words[b : b + 5]
    nxt = after[0] if after else "."
    last = before[-1] if before else "."
    nought = [w for w in after[1:4] if w not in {"a", "flat", "big", "fat", "dead", "just", "straight"}]
    if nxt in {",", "-", ":"} and nought[:1] in _NOUGHTS and b + 2 < len(words):
        return False  # "drew nothing, zero amps", "nothing on it, a flat zero": the number is the value
    rest = [w for w in after if w not in {"at", "all", "whatsoever", ",", "-", "so", "that", "'s", "that's"}]
    if rest[:1] and rest[0] in {"0", "zero", "0.0"} and "so" in after:
        return False  # "no current at all, so 0 amps"
    if said.startswith("noth") and _opens_behind(words, b):
        return False
    if not said.startswith(("no ", "not ")) and said != "dead" and _of_leaks(words, a, b):
        return False
    if said == "nothing" and _nothing_done(words, b):
        return False
    if said == "nothing" and _comes_through(words, a, b) and _volts_before(narration, a):
        return True
    if last == "to" and not word_list("values_worn").isdisjoint(before):
        return False  # "contacts are burnt right down to nothing"
    if said.startswith("no ") and {"so", "it's", "that's"} & set(after) and _nought_behind(words, b):
        return False  # "no current at all, so 0 amps"
    if said.startswith("no ") and _MEASURED & set(words[b : b + 8]) and _nought_behind(words, b + 2):
        return False  # "no voltage on the terminals, I measured 0.0"
    if said == "nothing" and _does(after):
        return False  # "205 volts at the coil and nothing moves"
    if said == "dead" and _of_the_tester(words, a):
        return False
    if said == "dead" and any(c.start == b for c in find_components(narration)) and last in _OF_THINGS:
        return False  # "both dead heaters out"
    cut = next((k for k, w in enumerate(after) if w in word_list("values_is_zero_8")), len(after))
    near = after[:cut]
    place_after = nxt in _PLACE and (
        bool(_ELECTRIC_PLACES & set(near))
        or any(0 <= p.start - b - 1 <= 1 and p.kind in {"leg", "legs"} for p in find_points(narration))
    )
    if {"drop", "reading", "taken", "if", "should"} & set(near[:2]) or "if" in before[-3:]:
        return False
    if said.startswith(("no ", "not ")):
        if last == "for" or nxt in word_list("values_is_zero_7"):
            return False
        if not word_list("values_no_flow").isdisjoint(words[a:b]) and nxt in _ENDS:
            return (
                _volts_told(words, a)
                or last in word_list("values_draws_none")
                or (last == "," and _amps_told(words, a))
            )
        return (
            place_after
            or (_between_legs(after) and not speaks_of_ohms(words[max(0, a - 10) : a]))
            or (_metered_dead(words, a, b) and _meter_or_place(words, a))
            or bool({"at", "on", "across"} & set(near))
            or any(0 <= a - p.end <= 3 for p in find_points(narration) if p.kind != "winding")
        )
    if said == "dead":
        if _tested_dead(words, a) and nxt not in {"short", "battery", "compressor", "motor", "air", "end"}:
            return True
        if last in word_list("values_is_zero_6"):
            return False
        if _on_every_one(after) and _CUT_OFF & set(words[max(0, a - 30) : a]):
            return True
        if nxt in word_list("values_is_zero_5") and not place_after:
            return False
        electric = any(0 <= a - p.end <= 3 for p in find_points(narration))
        return (
            electric
            or (place_after and last in {"is", "'s", "was", "side", ",", ".", "are"} and nxt == "across")
            or ("ground" in before[-3:] and "to" in before[-4:])
        )
    # "nothing"
    if _metered_dead(words, a, b):
        return True
    if all_of_them_came_up(words, a) and nxt in _ENDS and _electric_test(words, a):
        return True
    if nxt == "there" and last in {"'s", "there's", "is", "was"}:
        return False  # "there's nothin' there, it's wide open"
    if last == "," and before[-3:-2] == ["no"]:
        return False  # "looked at the joint, no oil, nothing"
    if nxt in {"'s", "is"} and after[1:2] and after[1].endswith("ing"):
        return False  # "so nothing's getting across"
    if last in {"pulled", "got", "took"} and after[:2] == ["out", "of"]:
        return False  # no gas came out of it
    if last in word_list("values_draws") and nxt in {".", ",", ";", "and", "but", "at", "now"}:
        return True  # "the right fan isn't turning and draws nothing"
    if (
        last in word_list("values_draws")
        and _amps_told(words, a)
        and nxt not in {"but", "to", "else", "more", "like"}
    ):
        return True  # "fan 2 pulls 2.2 fan 3 takes nothing at all its overload is out"
    told = last in {"says", "said", "was"} and place_after and nxt in {"between", "across", "to"}
    told = told or (
        last in {"says", "said"}
        and nxt in {"on", "at"}
        and bool({"meter", "tester", "voltmeter"} & set(before))
        and bool(word_list("values_is_zero_3") & set(near))
    )
    ends = {"line", "leg", "phase", "hot", "live", "l1", "l2", "l3", "neutral", "pole"}
    if after[1:2] == ["to"] and nxt in ends and set(after[2:3]) & (ends | {"ground", "earth"}):
        return not speaks_of_ohms(words[max(0, a - 10) : a])
    if (last in {"with", "for", "was", "did", "do", "says", "said"} and not told) or nxt in {
        "calling",
        "running",
        "happening",
        "happens",
        "happened",
    }:
        return False
    if nxt in word_list("values_is_zero_4"):
        return False
    point_before = any(
        0 <= a - p.end <= 5 and not full_stop(words, p.end, a)
        for p in find_points(narration)
        if p.kind in {"point", "leg", "legs"}
    )
    electric = bool(_LIVE & set(words[max(0, a - 30) : b + 12]))
    if place_after and nxt in {"on", "at", "across", "from", "between", "out", "to"}:
        strong = word_list("values_is_zero_3")
        return electric or (bool(strong & set(near)) and nxt != "to")
    if point_before:
        return True
    comps = [
        c
        for c in find_components(narration)
        if c.end <= a and a - c.end <= 4 and not full_stop(words, c.end, a)
    ]
    comp_zero = bool(comps) and "voltage" in comps[-1].component.measures
    ender = nxt in word_list("values_is_zero_2")
    if (
        comp_zero
        and ender
        and electric
        and last
        in {
            "get",
            "getting",
            "got",
            "gets",
            "is",
            "reads",
            "terminals",
            "terminal",
            "coil",
            "has",
            "had",
            "shows",
            "pulling",
            "drawing",
            ",",
            "'s",
            comps[-1].name.split()[-1],
        }
    ):
        return True
    if (
        comp_zero
        and ender
        and electric
        and all(w in word_list("values_is_zero") for w in words[comps[-1].end : a])
    ):
        return True
    led = last if last not in {",", ":"} else before[-2] if len(before) > 1 else "."
    if led in word_list("values_dead_places") and ender and (last not in {",", ":"} or electric):
        return True
    if _on_each_of_them(words, a, b):
        return True
    at_end = nxt in {".", ",", ";", "!"}
    if at_end and _at_a_place_in_front(words, a) and (electric or _volts_before(narration, a)):
        return True
    if said.startswith("nothin") and said != "nothing" and "nothing " not in said:
        return False
    if nxt in {"on", "anywhere"} and {"meter", "tester", "voltmeter", "clamp"} & set(after[:4]):
        return True  # "nothing anywhere on the meter"
    if ender and one_of_a_row(narration, words, a):
        return True
    return last in {"reads", "reading", "read", "pulling", "drawing", "pulls"} and ender and electric
