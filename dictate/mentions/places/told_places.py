"""Places of temperatures and pressures that the frame around a value tells, once all values are taken.

    told_places(found, words)

"Seventy-nine return and sixty-one supply" names its places behind the values, "sixty degrees out" is the
weather, two line temperatures are the suction's and the liquid's, and "discharge air, left 31, middle 39"
goes on with the discharge air. Only frames that leave no other reading are settled here.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from dictate.mentions.labels import LabelAt
from dictate.mentions.places.boxes import has_box
from dictate.mentions.temperatures.words_behind import STOPS, leaving_behind, place_behind, side_behind
from dictate.mentions.whose.taken import Found, Taken
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import word_set

_UNITS = frozenset(("degrees", "degree", "f", "c", "fahrenheit", "celsius"))
_COPULAS = frozenset(
    ("is", "'s", "was", "at", "are", "were", "reads", "read", "about", "around", "of", "the")
)
_AIR = frozenset(("supply", "return", "ambient", "condenser air out"))
_TEST_GASES = word_set("nitrogen_names")


def told_places(found: Found, words: Sequence[str], labels: dict[int, LabelAt]) -> None:
    """Set the points that the words around the values tell, in place."""
    levels = [t for t in found.readings if t.reading.quantity == "temperature" and t.reading.state == "value"]
    for t in levels:
        _named_behind(t, words, labels)
        _weather(t, words)
        if t.reading.point is None and t.reading.component is None:
            t.reading.point = (
                place_behind(words, t.end) or _at_leaving(t, words) or _as_far_as_it_gets(t, words)
            )
    for a, b in pairwise(levels):
        _comes_down(a, b, words)
    pressed = [t for t in found.readings if t.reading.quantity == "pressure" and t.reading.value]
    for t in pressed:
        _side_behind(t, words)
        _gas_pressure(t, words)
    sided = {t.reading.point for t in pressed if t.reading.role == "measured"}
    for a, b in pairwise(pressed):
        _pressure_pair(a, b, words, bool(sided & {"suction", "discharge"}))
    for a, b in pairwise(found.readings):
        _out_to(a, b, words)
        _line_pair(a, b, words)
        _goes_on(a, b, words)
        _said_again(a, b, words)
        _other_side(a, b, words)


def _behind(t: Taken, words: Sequence[str]) -> int:
    """Return the token behind a value and its unit."""
    at = t.end
    while at < len(words) and at - t.end < 2 and words[at] in _UNITS:
        at += 1
    return at


def _own_label(t: Taken, words: Sequence[str]) -> bool:
    """Tell whether a firm label stands in front of a value in its own part of the sentence."""
    lead = list(words[max(0, t.start - 5) : t.start])
    cut = max((i for i, w in enumerate(lead) if w in STOPS), default=-1)
    own = lead[cut + 1 :]
    return bool(own) and not set(own) <= _COPULAS | {
        "a",
        "it",
        "it's",
        "i",
        "had",
        "got",
        "with",
        "only",
        "to",
    }


def _at_leaving(t: Taken, words: Sequence[str]) -> str | None:
    """Return "box" for what a cold machine is at when it is left: "eleven degrees when I drove off"."""
    lead = list(words[max(0, t.start - 4) : t.start])
    cut = max((i for i, w in enumerate(lead) if w in STOPS), default=-1)
    if not set(lead[cut + 1 :]) <= _COPULAS | {
        "it",
        "it's",
        "down",
        "to",
        "she",
        "up",
        "and",
        "then",
        "only",
    }:
        return None
    if not leaving_behind(words, t.end) or not has_box(words):
        return None
    return "box" if (t.reading.value or 0) <= (20 if t.reading.unit == "degC" else 68) else None


def _as_far_as_it_gets(t: Taken, words: Sequence[str]) -> str | None:
    """Return "box" for how cold a machine gets: "she won't pull below minus ten"."""
    lead = list(words[max(0, t.start - 9) : t.start])
    lead = lead[max((i for i, w in enumerate(lead) if w in STOPS), default=-1) + 1 :]
    while lead and lead[-1] in {"about", "around", "a", "minus", "plus", "maybe"}:
        lead.pop()
    if not lead or lead[-1] not in word_list("told_places_how_far") or len(lead) < 3:
        return None
    who = next((i for i, w in enumerate(lead) if w in word_list("told_places_it")), None)
    if who is None or not word_list("told_places_gets") & set(lead[who:]):
        return None
    if not has_box(words):
        return None
    return "box" if (t.reading.value or 0) <= (20 if t.reading.unit == "degC" else 68) else None


def _comes_down(a: Taken, b: Taken, words: Sequence[str]) -> None:
    """Carry a place back to where it began: "seventy-one to start, core down to three"."""
    if a.reading.point is not None or a.reading.component is not None or b.reading.point is None:
        return
    gap = words[a.end : b.start]
    if len(gap) > 8 or "." in gap or a.reading.unit != b.reading.unit or b.reading.role != "measured":
        return
    began = word_list("told_places_began") & set(gap[:5]) or words[a.start - 1 : a.start] == ["from"]
    if began and gap[-2:] == ["down", "to"]:
        a.reading.point = b.reading.point


def _named_behind(t: Taken, words: Sequence[str], labels: dict[int, LabelAt]) -> None:
    """Read the air that is named right behind a value: "79 return and 61 supply", "47 discharge air"."""
    at = _behind(t, words)
    label = labels.get(at)
    if label is None or label.label.point not in _AIR or not label.label.fits("temperature"):
        return
    if label.label.weak or words[at] in {"in", "out", "outside", "kitchen", "outdoor"}:
        return
    after = words[label.end : label.end + 1]
    if after and after[0] not in STOPS | {"at", "from", "when", "now"}:
        return
    if after and after[0] in {":", "at", "with"} and _number_follows(words, label.end + 1):
        return
    if not _own_label(t, words) and t.reading.component is None:
        t.reading.point = label.label.point


_SIDES = {
    "low": "suction",
    "suction": "suction",
    "back": "suction",
    "high": "discharge",
    "head": "discharge",
    "discharge": "discharge",
    "liquid": "liquid",
}
_PRESSURES = frozenset(("psi", "psig", "bar", "kpa", "pounds", "lbs", "barg", "inches"))


def _side_behind(t: Taken, words: Sequence[str]) -> None:
    """Read the side that is named right behind a pressure: "two twenty on the high side", "128 high"."""
    at = t.end + (words[t.end : t.end + 1] != [] and words[t.end] in _PRESSURES)
    left = words[at : at + 2] == ["left", "in"]
    led = left or words[at : at + 1] in (["on"], ["at"], ["in"])
    at += led + left
    at += led and words[at : at + 1] in (["the"], ["my"])
    side = _SIDES.get(words[at]) if at < len(words) else None
    after = words[at + 1 : at + 2]
    if after in (["side"], ["pressure"], ["gauge"]) or (led and after == ["line"]):
        after = words[at + 2 : at + 3]
    elif (
        at < len(words)
        and words[at] in {"back", "low", "high"}
        and not led
        and after not in ([","], ["."], ["and"])
    ):
        return
    if side is None or (after and after[0] not in STOPS | {"while", "when", "now", "at"}):
        return
    if (
        after in (["at"], [":"])
        or (_own_label(t, words) and not left)
        or (t.reading.point in {"oil", "hold", "receiver"} and not left)
    ):
        return
    if side == "discharge" and t.reading.unit == "inHg":
        return
    t.reading.point, t.reading.component = side, None


_SERVICE_PORT = {"psi": 160.0, "bar": 11.0, "kPa": 1100.0}
"""What the one port of a split has on its suction side at most while it cools; common practice."""


def _gas_pressure(t: Taken, words: Sequence[str]) -> None:
    """Read "running pressure is only 62 PSI", "gas pressure 3.2 bar" as the suction: a split has one port."""
    r = t.reading
    if r.point is not None or r.component is not None or r.role != "measured":
        return
    if (r.value or 0) > _SERVICE_PORT.get(r.unit or "", 0):
        return
    lead = list(words[max(0, t.start - 7) : t.start])
    lead = lead[max((i for i, w in enumerate(lead) if w in STOPS), default=-1) + 1 :]
    at = next((i for i, w in enumerate(lead) if w == "pressure"), 0)
    if not at or lead[at - 1] not in word_list("told_places_gas") or len(lead) - at > 5:
        return
    near = set(words[max(0, t.start - 30) : t.end + 12])
    if "split" in words and not near & word_list("told_places_no_suction"):
        r.point = "suction"


def _pressure_pair(a: Taken, b: Taken, words: Sequence[str], sided: bool) -> None:
    """Tell the sides of "circuit two: 122 and 361" where the talk is of suction and head."""
    one, two = a.reading, b.reading
    gap = [w for w in words[a.end : b.start] if w not in _PRESSURES]
    if not sided or a.sentence != b.sentence or gap not in (["and"], ["over"], ["/"], [","], [",", "and"]):
        return
    if {one.role, two.role} != {"measured"} or one.unit != two.unit or one.unit == "inHg":
        return
    if one.component is not None or two.component is not None or {one.point, two.point} - {None, "suction"}:
        return
    if two.point == "suction" and b.label_here:
        return
    if "test" in {a.how, b.how} and not _TEST_GASES.isdisjoint(words[max(0, a.start - 12) : a.start]):
        return  # "put nitrogen in it. One hundred, two hundred"
    if (two.value or 0) >= 1.8 * (one.value or 0) and not _own_label(b, words):
        one.point, two.point = "suction", "discharge"


def _number_follows(words: Sequence[str], at: int) -> bool:
    return at < len(words) and words[at][:1].isdigit()


def _weather(t: Taken, words: Sequence[str]) -> None:
    """Read "in ninety degree air", "it's 95 degree heat" as what is around the machine."""
    at = _behind(t, words)
    if words[at : at + 1] and words[at] in word_list("told_places_weather") and at > t.end - 1:
        led = words[max(0, t.start - 3) : t.start]
        degree = words[at - 1] in {"degree", "degrees"}
        if degree and {"in", "on", "it's", "'s", "this", "with"} & set(led):
            t.reading.point, t.reading.component = "ambient", None


def _out_to(a: Taken, b: Taken, words: Sequence[str]) -> None:
    """Read "it went from 58 out to 54": both are the weather."""
    if a.reading.quantity != "temperature" or b.reading.quantity != "temperature":
        return
    at = _behind(a, words)
    gap = list(words[at : b.start])
    if gap in (["out", "to"], ["outside", "to"], ["outdoors", "to"]):
        a.reading.point = b.reading.point = "ambient"


def _line_pair(a: Taken, b: Taken, words: Sequence[str]) -> None:
    """Read two line temperatures said together: the colder is the suction's, the warmer the liquid's."""
    if {a.reading.quantity, b.reading.quantity} != {"temperature"} or a.sentence != b.sentence:
        return
    lead = list(words[max(0, a.start - 4) : a.start])
    while lead and lead[-1] in _COPULAS | {"were", ":", "i", "got", "had", "we"}:
        lead.pop()
    named = lead[-2:] in (
        ["line", "temps"],
        ["line", "temperatures"],
        ["pipe", "temps"],
        ["pipe", "temperatures"],
    )
    gap = set(words[a.end : b.start])
    if not named or not gap <= {"and", ",", "/", "over", "by", "degrees"}:
        return
    if lead[-3:-2] and lead[-3] in {"suction", "liquid", "discharge", "gas"}:
        return
    cold, warm = (a, b) if (a.reading.value or 0) < (b.reading.value or 0) else (b, a)
    cold.reading.point, warm.reading.point = "suction", "liquid"
    cold.reading.component = warm.reading.component = None


def _goes_on(a: Taken, b: Taken, words: Sequence[str]) -> None:
    """Go on with a place that the next value names only the side of: "Discharge air, left 31. Middle 39."."""
    one, two = a.reading, b.reading
    if one.quantity != "temperature" or two.quantity != "temperature" or one.point is None:
        return
    gap = list(words[_behind(a, words) : b.start])
    if len(gap) > 8 or two.role != one.role:
        return
    sides = word_list("told_places_sides")
    plain = word_list("told_places_between")
    if not sides & set(gap) or not set(gap) <= sides | plain:
        return
    near = set(words[max(0, a.start - 6) : a.start]) | set(words[a.end : a.end + 5])
    if not sides & near:
        return
    if one.point in {"product", "supply", "return", "box"} and two.point in {None, "box", one.point}:
        two.point, two.component = one.point, one.component


_OTHER = {"return": "supply", "ambient": "condenser air out", "water in": "water out", "inlet": "outlet"}


def _other_side(a: Taken, b: Taken, words: Sequence[str]) -> None:
    """Read "return 41 and 30 coming off the other side": the words behind the second tell its side."""
    one, two = a.reading, b.reading
    if {one.quantity, two.quantity} != {"temperature"} or a.sentence != b.sentence or one.point != two.point:
        return
    side = side_behind(words, b.end) or _side_in_front(one.point, words[a.end : b.start])
    if side == "out" and one.point in _OTHER:
        two.point = _OTHER[one.point]
    elif side == "in" and one.point in _OTHER.values():
        two.point = next(k for k, v in _OTHER.items() if v == one.point)


def _side_in_front(point: str | None, gap: Sequence[str]) -> str | None:
    """Return the side that the words between two values name: "water in 12 degrees, out 7 degrees"."""
    if point == "ambient" or len(gap) > 6:
        return None
    out = not {"out", "leaving", "off", "exiting"}.isdisjoint(gap)
    into = not {"in", "entering", "into"}.isdisjoint(gap)
    return ("out" if out else "in") if out != into else None


def _said_again(a: Taken, b: Taken, words: Sequence[str]) -> None:
    """Give a value that is said again at once the place it had: "70 degrees out. At 70 that is low"."""
    one, two = a.reading, b.reading
    if (one.quantity, one.value, one.unit) != (
        two.quantity,
        two.value,
        two.unit,
    ) or one.quantity != "temperature":
        return
    if b.start - a.end <= 6 and one.point is not None and (two.point is None or two.point == "box"):
        led = set(words[a.end : b.start])
        if "at" in led and not word_list("default_points_box") & led:
            two.point, two.component = one.point, one.component


__all__ = ["told_places"]
