"""Legs of a supply and the pairs between them: "L1 to L2", "leg two", "line one"."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from dictate.mentions.labels.point_at import ELECTRIC_QUANTITIES, PointAt
from dictate.mentions.narration import Narration, Token
from dictate.mentions.spoken_numbers import names_with_a_digit, numbers_by_end, numbers_by_start
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import table


@cache
def leg_firsts() -> frozenset[str]:
    """Return the words that the name of a leg or a phase begins with: most words begin none."""
    data = table("points")["leg"]
    named = (data["ends"], data["before"], data["letters"], data["numbers"])
    phases = (f"{letter}{mark}" for letter in "ryb" for mark in ("", "-", "/"))
    return frozenset((*(w for words in named for w in words), *phases, "l", "t", "first", "second", "third"))


def _leg(narration: Narration, i: int, paired: bool) -> tuple[int, int, str] | None:
    """Read one leg's name at token i: (number 1 to 3, end, letter family)."""
    data = table("points")["leg"]
    tokens = narration.tokens
    if i >= len(tokens):
        return None
    low = tokens[i].lower
    if low not in leg_firsts():
        return None
    if low in data["ends"] and (
        low[-1].isdigit() or (tokens[i].text.isupper() and _three_phase_talk(narration, i))
    ):
        return data["ends"][low], i + 1, low[0]
    nxt = tokens[i + 1].lower if i + 1 < len(tokens) else ""
    if low in {"l", "t"} and nxt in data["numbers"] and nxt not in {"first", "second", "third"}:
        return data["numbers"][nxt], i + 2, low
    if low in data["before"]:
        j = i + 1
        if nxt in {"number", "#"}:
            j += 1
            nxt = tokens[j].lower if j < len(tokens) else ""
        if nxt in data["numbers"]:
            if low in {"leg", "winding"} and i and tokens[i - 1].lower in word_list("labels_winding_sides"):
                return None  # "run leg two point two": the leg has its name
            number = numbers_by_start(narration).get(j)
            if number is not None and number.end > j + 1:
                return None  # "line two oh eight" is the line side and 208
            return data["numbers"][nxt], j + 1, "l"
        if (
            nxt in data["letters"]
            and low != "line"
            and (nxt != "a" or tokens[j].text == "A" or low in {"phase", "leg", "pole"})
        ):
            return data["letters"][nxt], j + 1, "a"
        return None
    if nxt in {"leg", "phase", "pole"} and (low in data["letters"] or low in {"first", "second", "third"}):
        if low == "a" and tokens[i].text != "A":
            return None
        return data["letters"].get(low) or data["numbers"][low], i + 2, "a" if low in data["letters"] else "l"
    if paired and (
        low in data["letters"] or (low in data["numbers"] and low not in {"first", "second", "third"})
    ):
        return data["letters"].get(low) or data["numbers"][low], i + 1, "a" if low in data["letters"] else "l"
    return None


def _three_phase_talk(narration: Narration, i: int) -> bool:
    tokens = narration.tokens
    near = {t.lower for t in tokens[max(0, i - 4) : i + 5]} - {tokens[i].lower}
    return bool(near & {"u", "v", "w", "u1", "v1", "w1"})


def find_legs(narration: Narration, i: int) -> PointAt | None:
    """Read "L1 to L2", "leg two", "phase A to B", "one to two" (in a row of such pairs) at token i."""
    tokens = narration.tokens
    joins = table("points")["leg"]["joins"]
    first = _leg(narration, i, False)
    bare = False
    if first is None:
        first = _leg(narration, i, True)
        bare = first is not None
        if first is None:
            return None
    number, end, family = first
    j = end
    joined = j < len(tokens) and (tokens[j].lower in joins or tokens[end - 1].text.endswith("-"))
    if joined and tokens[j].lower in joins and not tokens[end - 1].text.endswith("-"):
        # "L1 to L2": the join itself may be written as the digit 2
        j += 1
    second = _leg(narration, j, True) if joined else None
    if second is None and not bare and j < len(tokens):
        direct = _leg(narration, end, False)
        if (
            direct is not None
            and direct[2] == family
            and tokens[i].lower not in table("points")["leg"]["before"]
        ):
            second, j = direct, end
    if second is None and bare and family == "a" and tokens[i].text.isupper():
        nxt = tokens[i + 1] if i + 1 < len(tokens) else None
        if (
            nxt is not None
            and nxt.text.isupper()
            and nxt.lower in {"a", "b", "c"}
            and nxt.lower != tokens[i].lower
        ):
            return _pair(number, ord(nxt.lower) - 96, i, i + 2)
    if second is not None and second[0] != number:
        if bare and not _is_pair_row(narration, i, second[1], family):
            return None
        behind = tokens[second[1]].lower if second[1] < len(tokens) else "."
        if tokens[second[1] - 1].lower == "a" and behind in table("numbers")["fraction"]:
            return None  # "the first one thirty-two and a half"
        if (
            tokens[end].lower in {"and", "through"}
            and not bare
            and family == "l"
            and tokens[i].lower in {"leg", "legs", "phase"}
        ):
            pass
        return _pair(number, second[0], i, second[1])
    if not bare and joined and j < len(tokens) and tokens[j].lower in table("points")["winding"]["ground"]:
        return PointAt(i, j + 1, f"L{number}-ground", "ground", frozenset({"resistance", "voltage"}))
    if not bare and joined and j < len(tokens) and tokens[j].lower in {"neutral", "n"}:
        return PointAt(i, j + 1, f"L{number}-N", "legs", ELECTRIC_QUANTITIES)
    if bare:
        return _letter_leg(narration, i, number)
    before = tokens[i].lower
    if before in {"pole", "poles"} or (end < len(tokens) and tokens[end - 1].lower == "pole"):
        said = tokens[end - 1].text if before.startswith("pole") else tokens[i].text
        return PointAt(i, end, f"L{number}", "leg", ELECTRIC_QUANTITIES, f"pole {said}")
    if before in {"terminal", "winding"}:
        return None
    which = f"leg {tokens[end - 1].text.upper()}" if family == "a" else None
    return PointAt(i, end, f"L{number}", "leg", ELECTRIC_QUANTITIES, which)


def _pair(a: int, b: int, start: int, end: int) -> PointAt:
    low, high = sorted((a, b))
    return PointAt(start, end, f"L{low}-L{high}", "legs", ELECTRIC_QUANTITIES)


def _is_pair_row(narration: Narration, start: int, end: int, family: str) -> bool:
    """Tell whether "one to two" is a pair of terminals: a value follows, and the talk is of legs."""
    tokens = narration.tokens
    near = {t.lower for t in tokens[max(0, start - 25) : end + 12]}
    talk = near & word_list("labels_is_pair_row")
    row = narration.found.setdefault("pair_rows", [])
    if any(0 <= start - e <= 10 for e in row):
        talk = talk | {"row"}
    if not talk:
        said = " ".join(t.lower for t in tokens[max(0, start - 14) : end + 16])
        if sum(f" {p} " in f" {said} " for p in word_list("labels_pair_rows")) >= 2:
            talk = talk | {"row"}
    value = any(i in numbers_by_start(narration) for i in range(end, end + 3))
    # "481 A to C", "202 on A to C": the value stands in front
    value = value or any(i in numbers_by_end(narration) for i in range(max(0, start - 2), start + 1))
    value = value or any(0 <= start - e <= 2 for e in row)
    letters = (
        family != "a"
        or "row" in talk
        or (tokens[start].text.isupper() and tokens[end - 1].text.isupper())
        or bool(near & {"phase", "leg", "legs", "phases"})
    )
    return (
        bool(talk)
        and value
        and letters
        and (
            start == 0
            or tokens[start - 1].lower not in {"from", "of", "about"}
            or ("row" in talk and tokens[start - 1].lower == "from")  # "470 between 1 and 2, 461 from 2 to 3"
            or _capitals(tokens, start, end)
            or _mains_in_front(narration, start, end)
        )
    )


def _mains_in_front(narration: Narration, start: int, end: int) -> bool:
    """Tell whether a mains voltage stands before "from one to two": "461 from 2 to 3, 457 on 1 to 3"."""
    words = narration.lowers
    number = numbers_by_end(narration).get(start - 1 - (words[start - 2 : start - 1] == ["volts"]))
    closed = words[end : end + 1] in ([], [","], ["."], [";"], ["and"], ["then"], ["but"])
    return number is not None and (number.value >= 95 or number.value == 0) and closed


def _capitals(tokens: Sequence[Token], start: int, end: int) -> bool:
    """Tell whether a pair is two capital letters: "471 volts from A to B"."""
    return tokens[start].text in {"A", "B", "C"} and tokens[end - 1].text in {"A", "B", "C"}


def _letter_leg(narration: Narration, i: int, number: int) -> PointAt | None:
    """Read the bare letters of a row: "A twelve, B fourteen and a half, C nineteen"."""
    tokens = narration.tokens
    if tokens[i].lower not in {"a", "b", "c"} or not tokens[i].text.isupper():
        return None
    if names_with_a_digit(narration, i):
        return None
    starts = numbers_by_start(narration)
    if _letter_behind(narration, i):
        return PointAt(i, i + 1, f"L{number}", "leg", ELECTRIC_QUANTITIES, f"leg {tokens[i].text}")
    if i + 1 not in starts and not (
        i + 2 in starts and tokens[i + 1].lower in {"is", "'s", "at", "was", ":", "pulls", "draws", "reads"}
    ):
        return None
    near = [t.text for t in tokens[max(0, i - 14) : i + 14] if t.text in {"A", "B", "C"}]
    others = {t for t in near if t != tokens[i].text}
    before = tokens[i - 1].lower if i else ","
    if not others or before not in word_list("labels_letter_leg"):
        return None
    return PointAt(i, i + 1, f"L{number}", "leg", ELECTRIC_QUANTITIES, f"leg {tokens[i].text}")


def _letter_behind(narration: Narration, i: int) -> bool:
    """Tell whether a letter behind a value names its leg: "31.5 on A, 26 on B, 30 on C"."""
    tokens = narration.tokens

    def led(k: int) -> bool:
        if k < 2 or tokens[k].text not in {"A", "B", "C"} or tokens[k - 1].lower not in {"on", "across"}:
            return False
        after = tokens[k + 1].lower if k + 1 < len(tokens) else "."
        before = tokens[k - 2].lower
        number = numbers_by_end(narration).get(k - 1) is not None or before in {
            "amps",
            "volts",
            "amp",
            "volt",
        }
        return number and after in {".", ",", "and", ";", "then", "but", "or"}

    if not led(i):
        return False
    others = {tokens[k].text for k in range(max(0, i - 16), min(len(tokens), i + 17)) if led(k)}
    talk = {t.lower for t in tokens[max(0, i - 60) : i + 20]}
    return len(others) == 3 or (len(others) == 2 and bool(talk & word_list("labels_three_phase")))
