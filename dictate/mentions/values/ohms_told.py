"""What an ohmmeter said in a clause of its own: "ohmed the coil. Open.", "meter gives me no reading".

    ohms_told(narration, words, out, taken) -> list[Value]

A clause that holds no more than the name of a thing, a verb of reading and the state tells what the meter
said, where ohms are under talk: the words for ohms stand nearer than those for volts, amps and leaks.
"""

from __future__ import annotations

from dictate.mentions.labels import find_components
from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import find_numbers
from dictate.mentions.values.value import Value
from dictate.mentions.word_lists import phrases_by_first, word_list

_STOPS = frozenset((".", "?", "!", ";"))
_ENDS = _STOPS | {
    ",",
    "and",
    "but",
    "so",
    "too",
    "either",
    "also",
    "that",
    "as",
    "inside",
    "like",
    "-",
    "again",
}
_ON_ONE = frozenset(("on", "from", "for"))
_GIVES = frozenset(
    ("get", "got", "getting", "read", "reads", "reading", "shows", "showed", "gives", "gave", "says", "has")
)
_VOLTS = frozenset(("volt", "volts", "amp", "amps", "voltage", "psi"))
_SPEEDS = frozenset(("low", "high", "medium"))
_TALK, _SENTENCES, _AHEAD = 34, 3, 9
_WINDINGS = ("common-ground", "run-ground", "start-ground")


def ohms_told(narration: Narration, words: list[str], out: list[Value], taken: set[int]) -> list[Value]:
    """Return the open circuits that stand in clauses of their own and that no other look took, in order."""
    answers = phrases_by_first("ohms_told_answers")
    if answers.keys().isdisjoint(words):
        return []
    found: list[Value] = []
    for a, word in enumerate(words):
        for row in answers.get(word, ()):
            b = a + len(row)
            if tuple(words[a:b]) != row:
                continue
            if taken.isdisjoint(range(a, b)) and not any(v.start <= a < v.end for v in out):
                value = _to_ground(narration, words, a, b) or _alone(narration, words, a, b, [*out, *found])
                if value is not None:
                    found.append(value)
                    taken.update(range(a, b))
            break
    return found


def _sentence(words: list[str], a: int) -> int:
    """Return where the sentence of a token begins."""
    first = a
    while first > 0 and words[first - 1] not in _STOPS and a - first < 40:
        first -= 1
    return first


def _clause(words: list[str], first: int, a: int) -> int:
    """Return where the clause of a token begins: behind the last comma, or an "and" with a verb behind it."""
    i = a
    while i > first and words[i - 1] not in {",", "-"}:
        i -= 1
    return i


def _thin(words: list[str]) -> bool:
    """Tell whether words hold no more than names of things, verbs of reading and small words."""
    allowed = word_list("ohms_told_thin")
    names = word_list("values_row_names") | word_list("ohms_told_things")
    return all(w in allowed or w in names or w.isdigit() or (len(w) <= 2 and w[-1:].isdigit()) for w in words)


def _ends(words: list[str], b: int) -> bool:
    """Tell whether the clause ends behind the state, or names on which of a row it was."""
    behind = words[b : b + 6]
    while behind and behind[0] in {"at", "all", "whatsoever", "there"}:
        behind = behind[1:]
    if not behind or behind[0] in _ENDS:
        return behind[:2] not in (["so", "far"], ["as", "far"], ["like", "that"], ["that", "i"])
    if behind[0] in _ON_ONE:
        row = [w for w in behind[1:] if w not in {"the", "that", "one", "side", "winding", "coil"}]
        names = word_list("values_row_names") | _SPEEDS
        return bool(row) and row[0] in names and (len(row) == 1 or row[1] in _ENDS)
    return (
        behind[0] == "when" and words[b - 1] == "open" and len(behind) > 1 and behind[1] in {"you", "i", "it"}
    )


def spoken_of(narration: Narration, words: list[str], a: int) -> str:
    """Return what was spoken of last in front of a token: "ohms", "off" (the power), "live", or nothing."""
    i, sentences = a - 1, 0
    off = False
    while i >= 0 and a - i < _TALK:
        w = words[i]
        if w in _STOPS:
            sentences += 1
            if sentences > _SENTENCES:
                break
        elif w in word_list("ohms_told_talk"):
            return "ohms"
        elif w in word_list("ohms_told_live"):
            return "off" if off else "live"
        elif w in word_list("ohms_told_off"):
            if w == "pulled" and any(n.start == i + 1 for n in find_numbers(narration)):
                return "live"  # "the heaters pulled eleven, eleven and | nothing on the third"
            off = True
        i -= 1
    return "off" if off else ""


def _asked_for(words: list[str], b: int) -> bool:
    """Tell whether ohms follow: "should be a few thousand ohms", "Right one forty eight ohms"."""
    behind = words[b : b + _AHEAD]
    return not word_list("ohms_told_units").isdisjoint(behind)


def _alone(narration: Narration, words: list[str], a: int, b: int, before: list[Value]) -> Value | None:
    """Read a state that stands alone in its clause, while ohms are under talk."""
    if not _ends(words, b):
        return None
    said = words[b - 1]
    if not _VOLTS.isdisjoint(words[b : b + 5]) or "ol" in words[max(0, a - 5) : a]:
        return None  # "nothing, zero volts" tells its value, "meter shows OL. Yes, open" told it
    first = _sentence(words, a)
    start = _clause(words, first, a)
    lead = words[start:a]
    if (words[a - 1 : a] and words[a - 1] in word_list("ohms_told_never")) or not _thin(lead):
        joined = [i for i, w in enumerate(lead) if w in {"and", "but", "then"}]
        if not joined or not _thin(lead[joined[-1] + 1 :]) or words[a - 1] in word_list("ohms_told_never"):
            return None
        start += joined[-1] + 1
        lead = words[start:a]
    sentence = words[first:a]
    if not {"if", "when", "should", "ought", "be", "valve", "valves", "lid", "damper", "window"}.isdisjoint(
        lead
    ):
        return None
    if "left" in lead and {"it", "them", "her", "i"} & set(lead):
        return None  # "I left it open"
    if _stands(words, sentence, a):
        return None
    if _opens_again(words, b) and said != "open":
        return None  # "nothing, it's wide open": the next word says it
    things = word_list("ohms_told_things")
    last = next((v for v in reversed(before) if v.state == "open" and v.end <= a), None)
    if (
        last is not None
        and a - last.end <= 4
        and not {"and", "also", "they're"} & set(words[last.end : a])
        and _thin(words[last.end : a])
    ):
        return (
            None
            if word_list("values_row_names").isdisjoint(words[last.end : a])
            else Value(a, b, 0.0, state="open")
        )
    again = not {"too", "still", "also"}.isdisjoint([*lead, *words[b : b + 1]])
    if said == "open" and again and last is not None and a - last.end <= 12:
        return Value(a, b, 0.0, state="open")  # "upside down they're open too", "cooled it down, still open"
    near = "ohms" if _pair(lead) else spoken_of(narration, words, a)
    ahead = _asked_for(words, b)
    named = not things.isdisjoint(sentence) or (
        len(sentence) < 3 and not things.isdisjoint(words[max(0, first - 9) : first])
    )
    fragment = start == first and _thin(lead)
    if near == "live" or (near == "" and not ahead and said not in {"open", "reading"}):
        return None
    if said in {"nothing", "zilch", "nada", "zip"}:
        if near == "ohms" or ahead:
            sure = (
                fragment
                or not word_list("ohms_told_talk").isdisjoint(words[max(first, a - 14) : a])
                or (ahead and near != "")
                or bool(_GIVES & set(lead))
            )
        else:
            sure = (
                near == "off"
                and not word_list("ohms_told_metal").isdisjoint(sentence)
                and bool(word_list("ohms_told_tests").isdisjoint(sentence))
            )
        return Value(a, b, 0.0, state="open") if sure and (lead or named) else None
    if said == "open":
        verbs = bool(_GIVES & set(lead)) or not lead
        strong = near == "ohms" or ahead
        rowed = bool(word_list("values_row_names") & set(lead)) or any(w.isdigit() for w in lead)
        switch = _switch_before(narration, first, a)
        sure = (
            (strong and (verbs or named or rowed)) or (near == "off" and (verbs or named) and named) or switch
        )
        return Value(a, b, 0.0, state="open") if sure else None
    if not word_list("ohms_told_metal").isdisjoint(sentence):
        return Value(a, b, 0.0, state="open")  # "drain heater, meter gives me no reading"
    return (
        Value(a, b, 0.0, state="open")
        if near in {"ohms", "off"} and (named or near == "ohms" or fragment)
        else None
    )


def _stands(words: list[str], sentence: list[str], a: int) -> bool:
    """Tell whether a door or a valve stands open, and no heater in its frame, coil or switch is meant."""
    doors = word_list("ohms_told_doors")
    if doors.isdisjoint(sentence):
        return False
    if not {"heater", "heaters", "sweat"}.isdisjoint(words[max(0, a - 40) : a]):
        i = max(k for k, w in enumerate(sentence) if w in doors)
        behind = sentence[i + 1 : i + 2]
        return not (
            behind
            and (behind[0] in word_list("values_row_names") or behind[0].isdigit() or behind[0] in _OF_A_DOOR)
        )
    return not any(
        w in doors and sentence[k + 1 : k + 2] and sentence[k + 1] in _OF_A_DOOR
        for k, w in enumerate(sentence)
    )


_OF_A_DOOR = frozenset(("heater", "heaters", "switch", "coil", "frame", "reed", "solenoid"))


def _switch_before(narration: Narration, first: int, a: int) -> bool:
    """Tell whether what a meter is put on was named: "overload, I get open", "meter on the fuse: open"."""
    words = narration.lowers
    if not ({"get", "read", "meter", "show", "shows"} & set(words[first:a])):
        return False
    comps = [c for c in find_components(narration) if first - 14 <= c.end <= a]
    return bool(comps) and comps[-1].name in word_list("values_switches")


def _pair(lead: list[str]) -> bool:
    """Tell whether two ends of a winding are named: "a to b was wide | open", "one to three, | nothing"."""
    return any(
        w == "to" and 0 < i < len(lead) - 1 and _end(lead[i - 1]) and _end(lead[i + 1])
        for i, w in enumerate(lead)
    )


def _end(word: str) -> bool:
    return word in _ENDS_OF_WINDINGS or (len(word) == 2 and word[0] in "tuvw" and word[1].isdigit())


_ENDS_OF_WINDINGS = frozenset(("a", "b", "c", "u", "v", "w", "r", "s", "common", "run", "start"))


def _opens_again(words: list[str], b: int) -> bool:
    """Tell whether "open" or "OL" says the same right behind."""
    rest = [
        w
        for w in words[b : b + 6]
        if w not in {",", ".", "-", "it", "is", "'s", "it's", "just", "wide", "dead"}
    ]
    return rest[:1] in (["open"], ["ol"], ["infinite"], ["infinity"]) or rest[:2] == ["o", "l"]


def _to_ground(narration: Narration, words: list[str], a: int, b: int) -> Value | None:
    """Read "Shell, | nothing, on every pin", "Body to all three | no reading" as nothing to ground."""
    first = _sentence(words, a)
    while True:
        start = _clause(words, first, a)
        lead = [
            w for w in words[start:a] if w not in {",", ":", "-", "the", "and", "to", "is", "it's", "from"}
        ]
        if lead or start <= first:
            break
        a2 = start - 1
        start = _clause(words, first, a2)
        lead = [w for w in words[start:a2] if w not in {"the", "and", ":"}]
        break
    pins = word_list("values_pins") | word_list("values_pins_led") | {"earth", "ground"}
    if not lead or lead[0] not in word_list("ohms_told_grounds") or not set(lead[1:]) <= pins:
        return None
    if spoken_of(narration, words, start) != "ohms" and word_list("ohms_told_pairs").isdisjoint(
        words[max(0, start - _TALK) : start]
    ):
        return None
    behind = words[b : b + 7]
    cut = next((i for i, w in enumerate(behind) if w in _STOPS), len(behind))
    told = [*lead, *behind[:cut]]
    three = bool({"three", "every", "each", "3"} & set(told)) and bool(
        {"pin", "pins", "terminal", "terminals", "three", "3", "winding", "windings"} & set(told)
    )
    value = Value(a, b, 0.0, state="open", ground=True)
    value.points = _WINDINGS if three else ("ground",)
    return value


__all__ = ["ohms_told"]
