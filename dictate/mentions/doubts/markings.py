"""Is it what a part or a control is made or set for: nominal sizes, markings, schedules, limits."""

from __future__ import annotations

from dictate.mentions.doubts.evidence import by_itself, evidence, spent
from dictate.mentions.doubts.talk import LONGEST, Case, linking, word_set
from dictate.vocabulary.load import table


def nominal_voltage(c: Case) -> str | None:
    """Doubt a nominal voltage in a description: "standby 230 volts", "the controller's 24 volts is 25.1"."""
    r = c.reading
    if r.quantity != "voltage" or c.bare or r.value is None or r.derived:
        return None
    if r.value not in {12, 24, 110, 115, 120, 208, 230, 240, 277, 380, 400, 415, 440, 460, 480, 575, 600}:
        return None
    following = c.after(2)
    nxt = c.following
    if (
        following[:1] in (["is"], ["was"], ["'s"], ["reads"], ["measured"])
        and nxt is not None
        and nxt.reading.quantity == "voltage"
        and nxt.start - c.end <= 4
    ):
        return f"{r.value:g} volts may be the name of the circuit; what was read on it follows"
    before = c.before(10)
    if following in (["on", "it"], ["at", "it"], ["across", "it"], ["to", "it"]):
        return None  # "the heater has 230 volts on it"
    if word_set("reads") & set(before) or r.point in {
        "line",
        "load",
        "L1-L2",
        "L2-L3",
        "L1-L3",
        "secondary",
        "primary",
        "coil",
    }:
        return None
    close = c.talk.words[max(0, c.start - 26) : c.start]
    if {"model", "serial", "standby", "plate", "number", "rated"} & set(close) and not {
        "at",
        "across",
        "to",
    } & set(before[-3:]):
        return "stands in the description of the machine, so it may be the rating"
    return None


def size_marking(c: Case) -> str | None:
    """Doubt a bare standard size of a capacitor with no word of measuring: "dual cap 35 and 7.5"."""
    r = c.reading
    if not c.loose or r.quantity != "capacitance" or r.value not in table("plausible")["sizes"]["capacitor"]:
        return None
    a, _ = c.clause()
    near = c.talk.words[max(a, c.start - 8) : c.start] + c.after(2)
    if word_set("reads") & set(near) or {"at", "is", "was", "herm", "fan", "only"} & set(c.before(1)):
        return None
    return "a standard size with no word of measuring: it may be the marking"


def schedule(c: Case) -> str | None:
    """Doubt a time that belongs to a schedule or a delay, and a weight that names a size."""
    r = c.reading
    planned = r.quantity == "duration" and word_set("schedule") & set(c.before(8) + c.after(3))
    if planned and not c.bare and not {"held", "stood", "took", "ran"} & set(c.before(6)):
        return "may be a schedule or a delay that is set"
    if r.quantity == "mass" and c.after(1) and c.after(1)[0] in word_set("by_weight"):
        return "may be a size"
    return None


def _came_back(c: Case) -> bool:
    """Tell whether a control was watched through its turn: "cut out at 32 and came back in at 36"."""
    behind = c.after(6)
    led = behind[:1] in (["and"], [","], ["then"])
    return led and ({"came", "kicked", "started"} & set(behind) != set() or behind[1:3] == ["back", "in"])


def wanted(c: Case) -> str | None:
    """Doubt a value near words of settings, charts and limits, where nothing says that it was read."""
    r = c.reading
    if r.value is None:
        return None
    words = c.talk.words
    before = words[max(c.low, c.start - 9) : c.start]
    cut = max((i for i, w in enumerate(before) if w in {";", "but"}), default=-1)
    before = before[cut + 1 :]
    if "," in before and evidence(c)[0] <= 3:
        before = before[len(before) - before[::-1].index(",") :]
    low = c.start - len(before)
    hits = [
        i
        for i, w in enumerate(before)
        if w in word_set("wanted")
        and not spent(c, low + i)
        and not (w == "table" and before[i - 1 : i] and before[i - 1] in word_set("tables"))
        and not (w == "manual" and before[i + 1 : i + 2] in (["defrost"], ["reset"], ["mode"], ["harvest"]))
    ]
    if (
        hits
        and not word_set("reads") & set(before[hits[-1] :])
        and not {"now", "came", "actually", "then"} & set(before[hits[-1] :])
    ):
        own, _, _ = evidence(c)
        between = before[hits[-1] + 1 :]
        numbers = c.talk.numbers_between(c.start - len(between) + 1, c.start)
        paper = before[hits[-1]] in {"spec", "specs", "chart", "manual", "catalog", "curve", "guideline"}
        if paper or (own > 2 and numbers <= 2) or not between or set(between) <= linking():
            return f"{before[hits[-1]]!r} before it: it may be what should be, not what was read"
    acts = [i for i, w in enumerate(before) if w in word_set("acts") or w == "cut"]
    if (
        acts
        and set(before[acts[-1] + 1 :]) <= word_set("acts_at")
        and {"at", "in", "out", "on", "off", "to"} & set(before[acts[-1] + 1 :])
        and before[acts[-1]] in word_set("acts")
    ) and not (word_set("reads") | {"did", "it"}) & set(before):
        return "it may be where the control is set, not what was read"
    if (
        acts
        and before[acts[-1]] == "cut"
        and before[acts[-1] - 1 : acts[-1]] not in (["high"], ["low"])
        and len(before) - acts[-1] <= 5
        and any(
            x.component.sets and 0 <= c.start - x.end <= 10
            for x in c.talk.components_from(c.start - LONGEST, c.start)
        )
        and not _came_back(c)
    ) and not (word_set("reads") | {"it", "did"}) & set(before):
        return "it may be where the control is set, not what was read"
    if (
        c.after(1) == ["rated"]
        and c.talk.number_at.get(c.end + 1) is None
        and not {"load", "at", "for"} & set(c.after(2))
    ):
        return '"rated" behind it: it may be the rating'
    old = (c.bare and before[-2:] == ["it", "was"]) or before[-3:] == ["it", "was", "on"]
    if old and {"set", "setting", "dial", "knob", "thermostat", "stat"} & set(
        words[max(0, c.start - 16) : c.start]
    ):
        return "it may be an old setting, not what was read"
    if c.bare and before[-1:] == ["was"] and {"set", "setting"} & set(before):
        return "it may be an old setting, not what was read"
    return None


def describes(c: Case) -> str | None:
    """Doubt a unit in the singular in front of a noun ("a 34 degree box"), and the amps of a fuse."""
    r = c.reading
    if c.bare or r.value is None:
        return None
    thing = (c.after(1) or ["."])[0]
    plain = word_set("follow") | {"split", "drop", "difference", "rise", "superheat", "subcooling"}
    if c.talk.words[c.end - 1] == "degree" and abs(r.value) > 1 and thing.isalpha() and thing not in plain:
        return "may describe the thing behind it and be no reading"
    if (
        r.quantity == "current"
        and word_set("sized") & set(c.before(2))
        and not word_set("reads") & set(c.before(4))
    ):
        return "may be the size of the fuse or breaker"
    return None


def control_setting(c: Case) -> str | None:
    """Doubt a value on a control of the kind that it is set to, where nothing says that it acted."""
    r = c.reading
    for x in c.talk.components_from(c.low, c.start):
        if not (0 <= c.start - x.end <= 6 and x.component.sets == r.quantity):
            continue
        near = set(c.talk.words[x.end : c.start])
        if not near & (word_set("acted") | word_set("reads") | {"says", "said"}):
            return f"it may be where the {x.name} is set, not what was read"
    return None


def plate_like(c: Case) -> str | None:
    """Doubt a nominal size right behind the part's name: "gas valve 24 volts", "fan is 1075 rpm"."""
    r = c.reading
    sizes = table("plausible")["sizes"].get(r.quantity)
    if sizes is None or r.value not in sizes or c.bare or r.derived or by_itself(c):
        return None
    near = c.before(6)
    if (
        word_set("reads") | {"have", "has", "had", "at", "across", "on", "in", "to", "about", "coming"}
    ) & set(near) or c.after(1) in (["at"], ["on"], ["across"], ["to"], ["coming"], ["in"]):
        return None
    named = (
        any(0 <= c.start - x.end <= 2 for x in c.talk.components_from(c.start - LONGEST, c.start))
        or r.quantity == "speed"
    )
    named = named or (r.component is not None and c.start - c.low <= 3)
    watts = any(
        x is not None and x.reading.role == "rated" and abs(x.start - c.start) <= 5
        for x in (c.previous, c.following)
    )
    if (named or watts) and r.point in {None, "coil"}:
        return "a nominal size with no word of measuring: it may be what the part is made for"
    return None
