"""Is it of now: questions, other days, other people, targets in the same breath."""

from __future__ import annotations

from dictate.mentions.doubts.evidence import evidence, spent
from dictate.mentions.doubts.talk import CUTS, Case, word_set
from dictate.mentions.word_lists import word_list


def asked(c: Case) -> str | None:
    """Doubt a value in a question: "is it 208 or 230?"."""
    if c.talk.words[c.high - 1] == "?" and not word_set("reads") & set(c.clause_before(6)):
        return "it stands in a question"
    return None


def _of_the_meter(c: Case) -> bool:
    """Tell whether a range is the meter's: "on the wrong range, it's 132 ohms"."""
    if c.reading.quantity in {"resistance", "voltage", "current", "capacitance"}:
        return True
    near = set(c.talk.words[max(0, c.start - 16) : c.start])
    return bool({"meter", "wrong", "megger", "mega", "k", "scale", "ohms"} & near)


def _plain(c: Case, at: int) -> bool:
    """Tell whether a word of another time is used in its plain sense: "a manual defrost", "same order:"."""
    words = c.talk.words
    word, before, behind = words[at], words[max(0, at - 2) : at], words[at + 1 : at + 2]
    if word == "calls":
        return behind in ([","], ["."], [";"], ["and"])  # "thermostat calls, 26 volts at the coil"
    if word == "manual":
        return bool(behind) and behind[0] in word_set("manual_things")
    if word == "sheet":
        return bool(behind) and behind[0] in {"weighs", "weighed", "fell", "of"}  # of ice
    if word == "order":
        return bool({"same", "that", "which", "this", "the"} & set(before)) and behind != ["was"]
    if word == "shoot":
        return behind in ([","], ["."], ["!"])
    if word == "set" and c.reading.quantity == "duration":
        return bool({"let", "letting"} & set(before))  # "let it set an hour"
    if word == "set":
        return _laid(words[at + 1 : c.start])
    if word in {"should", "ought", "supposed"}:
        return _as_it_should(words, at, c.start)
    if word == "they":
        return bool(behind) and behind[0] in word_set("parts_do")
    if word in {"plate", "plates"}:
        return bool(before) and before[-1] in word_set("plate_parts")
    if word == "range":
        return _of_the_meter(c)
    return word in word_set("other_noun") and behind[:1] in ([","], [":"]) and not c.bare


def _laid(behind: list[str]) -> bool:
    """Tell whether a thing was put somewhere before a pause: "set the probe in the product, 41 degrees"."""
    cut = next((k for k, w in enumerate(behind) if w in {",", ";", "and"}), None)
    if cut is None or behind[0] not in word_list("roles_determiners") or {"to", "at", "for"} & set(behind):
        return False
    return bool(word_list("roles_laid") & set(behind[1:cut]))


def _as_it_should(words: list[str], at: int, start: int) -> bool:
    """Tell whether a thing did what it should, and its value follows: "closed like it should, 0.2 ohms"."""
    led = {"like", "as", "way", "where"} & set(words[max(0, at - 4) : at])
    return bool(led) and "," in words[at + 1 : start]


def _still(c: Case, at: int) -> bool:
    """Tell whether a day is one that lasts until now: "warm since Friday", "I came back the Wednesday"."""
    before = c.talk.words[max(0, at - 4) : at]
    return before[-1:] == ["since"] or "back" in before or "returned" in before


def may_be_of_what_follows(c: Case) -> str | None:
    """Doubt an earlier value whose time may open what stands behind it.

    "Drawing 4.8 in February. I wrote down 2.6": it draws 4.8 now, or it drew that in February. What opens a
    sentence of what was read then has hardly a time of its own.
    """
    words, at = c.talk.words, c.end
    if c.reading.role != "earlier" or word_list("drawn_now").isdisjoint(c.talk.words[c.low : c.start]):
        return None
    led = words[at : at + 1] == ["in"]
    at += led
    if at + 2 >= len(words):
        return None
    if words[at] not in {"last", "this"} and not (led and words[at] in word_list("told_months")):
        return None
    behind = at + 1 + (words[at] in {"last", "this"})
    time = c.talk.n.heard(c.end, behind)
    behind += words[behind : behind + 1] in (["."], [","])
    who, verb = [*words[behind : behind + 2], "", ""][:2]
    read = who in {"i", "we"} and verb in word_list("read_then")
    if read and _number_within(c, behind + 2):
        return f"'{time}' behind it may be of what follows"
    return None


def _number_within(c: Case, at: int, reach: int = 4) -> bool:
    return any(k in c.talk.number_at for k in range(at, at + reach))


def _next(c: Case, i: int) -> bool:
    """Tell whether the word i behind the value leads to the next one: "31 amps against a rated of 28"."""
    nxt = c.following
    at = c.end + i
    return nxt is not None and nxt.reading.role not in {"measured", "retracted"} and 0 < nxt.start - at <= 3


def hearsay(c: Case) -> str | None:
    """Doubt a value that somebody else tells of: "she said the freezer was at fifteen"."""
    words = c.talk.words
    low = max(c.low, c.start - 10)
    for i in range(c.start - 1, low, -1):
        if words[i] == "," and words[i - 1] not in word_set("tells"):
            return None
        if words[i] in word_set("now") or words[i] in {";", "but"} or c.talk.number_at.get(i) is not None:
            return None
        if (words[i] == "had" or words[i] in word_set("tells")) and words[i - 1] in word_set("people"):
            return f"{words[i - 1]!r} tells of it: it may be no value of now"
    return None


def other_time(c: Case) -> str | None:
    """Doubt a value in whose breath a target, a plate, another time or another person is spoken of."""
    words = c.talk.words
    a = c.start
    while a > c.low and c.start - a < 9 and words[a - 1] not in {".", "?", "!", ";"}:
        a -= 1
    before = words[a : c.start]
    spoken = words[c.low : c.start]
    days = [i for i, w in enumerate(spoken) if w in word_set("other_day") and not _still(c, c.low + i)]
    if days and not {"now", "today", "but"} & set(spoken[days[-1] :]):
        return f"{spoken[days[-1]]!r} in its sentence: it may be no value of now"
    if c.after(1) == ["then"] and c.bare and c.after(2)[1:] in ([], ["."], [","]):
        return '"then" behind it: it may be no value of now'
    p = c.previous
    if (
        p is not None
        and p.reading.role not in {"measured", "retracted"}
        and words[p.end : c.start] in (["to"], ["or"], ["-"])
    ):
        return "goes on from a value that is not of now"
    if c.bare and c.reading.quantity == "temperature_difference" and "set" in spoken:
        return "may be how a control is set"
    everywhere = word_set("other_clause") & set(before)
    if "range" in everywhere and _of_the_meter(c):
        everywhere -= {"range"}
    if everywhere and not (word_set("now") | {".", ","}) & set(before):
        return f"{min(everywhere)!r} before it: it may be no value of now"
    numbers = c.talk.numbers_in(a, c.start)
    if numbers:
        # Behind another number the words before that one were said of it.
        before = words[numbers[-1].end : c.start]
    if "," in before and evidence(c)[0] <= 3:
        before = before[len(before) - before[::-1].index(",") :]
    hits = [
        i
        for i, w in enumerate(before)
        if w in word_set("other_before")
        and not spent(c, c.start - len(before) + i)
        and not _plain(c, c.start - len(before) + i)
        and not (
            w == "last"
            and before[i + 1 : i + 2]
            and before[i + 1] in {"defrost", "cycle", "one", "freeze", "harvest", "run"}
        )
    ]
    if hits and c.after(1) != ["now"] and not word_set("now") & set(before[hits[-1] :]):
        return f"{before[hits[-1]]!r} before it: it may be no value of now"
    after = c.after(5)
    cut = next((i for i, w in enumerate(after) if w in CUTS or w in {"and", "but"}), len(after))
    late = [
        w
        for i, w in enumerate(after[:cut])
        if w in word_set("other_after") and not _next(c, i) and not _still(c, c.end + i)
    ]
    if late and not word_set("now") & set(before[-4:]):
        return f"{late[0]!r} behind it: it may be no value of now"
    return None
