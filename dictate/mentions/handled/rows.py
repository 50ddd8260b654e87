"""Where a row of parts goes on, and where it ends."""

from __future__ import annotations

from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import BE, DETERMINERS, RATINGS, part_words
from dictate.mentions.patterns import NUMBER_WORDS
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set


def more_follows(talk: Talk, k: int, end: int) -> bool:
    """Tell whether another thing follows a comma or "and" before a verb or a stop."""
    steps = 0
    while k < end and steps < 7:
        if talk.thing_from(k) is not None:
            nxt = talk.thing_from(k)
            assert nxt is not None
            after = talk.words[nxt.end] if nxt.end < end else ""
            if after in ("both", "all") and talk.words[nxt.end + 1 : nxt.end + 2] in ((".",), (",",), ()):
                return True  # "cleaned the condenser and the evaporator both"
            # "..., and the compressor is grounded" begins a new sentence.
            return (
                not (talk.scopes.kind(nxt.end) in ("past", "third") if nxt.end < end else False)
                and after not in BE
                and after not in ("now", "still")
            )
        word = talk.words[k]
        if word in ("that", "this", "those", "these") and points_at(talk, k, end):
            k += 1
            continue
        if word == "while" and (aside := behind_while(talk, k, end)) is not None:
            k = aside
            continue
        if talk.words[k + 1 : k + 3] == ("of", "the") and talk.thing_from(k + 3) is not None:
            return word in NUMBER_WORDS or word in ("one", "both")
        if word in (".", ";", "?", "but", "i", "we", "it", "then", "they") or word in part_words("stop"):
            return False
        if word in (",",) or (word == "and" and steps):
            return False
        if talk.scopes.kind(k) in ("past", "base") and talk.words[k + 1 : k + 2] in (
            ("the",),
            ("a",),
            ("it",),
        ):
            return False  # "..., cut the lug back"
        if (
            talk.scopes.kind(k) is not None
            and word not in word_set("verbs_in_names")
            and (talk.scopes.kind(k) != "ing" or word in word_set("doing_ings"))
            and talk.words[k + 1 : k + 2] not in (("air",), ("water",))
        ):
            return False
        steps += 1
        k += 1
    return False


def behind_while(talk: Talk, k: int, end: int) -> int | None:
    """Return the word behind "while I was there," at word k, where a part follows it."""
    comma = next((j for j in range(k + 2, min(end - 1, k + 9)) if talk.words[j] == ","), None)
    if comma is None or not any(w in ("i", "we", "it", "at") for w in talk.words[k + 1 : comma]):
        return None
    j = comma + 1
    while j < end and (talk.words[j] in DETERMINERS or talk.words[j] in part_words("plain_new")):
        j += 1
    return comma + 1 if j < end and talk.thing_from(j) is not None else None


def points_at(talk: Talk, k: int, end: int) -> bool:
    """Tell whether "that", "those" at word k points at a part named right behind it ("that fan motor")."""
    for j in (k + 1, k + 2):
        thing = talk.thing_from(j) if j < end else None
        if thing is not None:
            return thing.end >= end or talk.words[thing.end] in word_set("after_pointed_part")
    return False


def behind_what_is_not(talk: Talk, k: int, end: int) -> int | None:
    """Return the word behind "not the whole compressor,", if a part is denied at word k."""
    for j in range(k + 1, min(end, k + 6)):
        thing = talk.thing_from(j)
        if thing is not None:
            return thing.end + 1 if talk.words[thing.end : thing.end + 1] == (",",) else None
    return None


def rated_part_behind(talk: Talk, k: int, end: int) -> bool:
    """Tell whether a rating and the part that it is of stand at word k ("one 9 watt motor")."""
    j = k
    while j < min(end, k + 6) and (
        talk.words[j] in NUMBER_WORDS
        or talk.words[j][0].isdigit()
        or (talk.words[j] in RATINGS and talk.words[j] != "and")
        or talk.words[j] in word_set("rates_a_part")
    ):
        j += 1
    return j > k and j < end and talk.thing_from(j) is not None


def rating_alone(talk: Talk, k: int, end: int) -> int | None:
    """Return the word behind a rating that stands for the part itself ("a two hundred watt")."""
    j = k
    rated = counted = False
    while j < min(end, k + 10):
        word = talk.words[j]
        if word in NUMBER_WORDS or word[0].isdigit():
            counted = True
        elif word in word_set("rates_a_part"):
            rated = True
        elif not (counted and word in RATINGS and word not in ("and", "long")):
            break
        j += 1
    if not (counted and rated) or talk.thing_over(j) is not None:
        return None
    behind = talk.words[j] if j < end else "."
    return j if behind in word_set("behind_rating_alone") else None


def sized_one(talk: Talk, k: int, end: int) -> int | None:
    """Return the word behind "one quarter inch one", a part named by its size, if that stands at word k."""
    sizes = (
        "inch",
        "eighths",
        "eighth",
        "quarter",
        "mil",
        "millimeter",
        "amp",
        "watt",
        "volt",
        "ton",
        "cubic",
        "row",
        "gram",
        "pole",
        "speed",
    )
    j = k
    while j < min(end, k + 6) and (
        talk.words[j] in NUMBER_WORDS
        or talk.words[j][0].isdigit()
        or talk.words[j] in word_set("rating_joins")
        or talk.words[j] in sizes
    ):
        j += 1
        if j > k + 1 and talk.words[j - 1] == "one" and talk.words[j - 2] not in NUMBER_WORDS:
            return j
    return None


def behind_exchange(talk: Talk, k: int, end: int) -> int | None:
    """Return the word behind "for a 40 amp one" that begins at word k."""
    if talk.words[k + 1 : k + 2] not in (("a",), ("an",), ("another",), ("the",)):
        return None
    for j in range(k + 2, min(end, k + 8)):
        if talk.words[j] in ("one", "ones") and talk.words[j + 1 : j + 2] in (("and",), (",",), (".",)):
            return j + 1
        if j == k + 2 and (rated := rating_alone(talk, j, end)) is not None:
            return rated
        if talk.words[j] in (",", "and", "."):
            return None
    return None


def behind_apposition(talk: Talk, k: int, end: int) -> int | None:
    """Return the comma or "and" behind a size or number told in commas, when another thing follows it.

    "New capillary, 9 feet of 042, and a drier"; "new valve, part number HV-0621, and a drier".
    """
    j = k
    while j < end and talk.words[j] == ",":
        first = j + 1
        j = first
        numbered = False
        while j < end and talk.words[j] not in (",", ".", "and", ";", "plus") and j - first < 11:
            word = talk.words[j]
            if word == "part" or (word in ("number", "serial", "pn", "model") and j == first):
                numbered = True
            plain = (
                word in NUMBER_WORDS
                or word[0].isdigit()
                or word in RATINGS
                or word in word_set("apposed_to_part")
                or (len(word) <= 2 and word.isalpha() and word not in word_set("two_letter_words"))
            )
            if not (plain or numbered):
                return None
            j += 1
        if j == first or j >= end or talk.words[j] not in (",", "and", "plus"):
            return None
        behind = j + 1
        if talk.words[j] == "," and talk.words[behind : behind + 1] in (("and",), ("plus",)):
            j, behind = behind, behind + 1
        opens = talk.words[behind : behind + 1] and talk.words[behind] in word_set("opens_next_part")
        if opens or (talk.words[j] != "," and talk.thing_from(behind) is not None):
            return j if more_follows(talk, behind, end) else None
    return None


def tells_why(talk: Talk, k: int, end: int) -> bool:
    """Tell whether a clause about another part begins at word k: a part and a finite verb."""
    while k < end and talk.words[k] in DETERMINERS:
        k += 1
    thing = talk.thing_from(k) if k < end else None
    while thing is not None and thing.end < end and talk.thing_from(thing.end) is not None:
        thing = talk.thing_from(thing.end)
    if thing is None or thing.end >= end:
        return False
    return talk.words[thing.end] in word_set("tells_of_a_part")


def only_a_size(talk: Talk, thing: Thing) -> bool:
    """Tell whether a thing only describes the one before it.

    A flare or a coil behind its size or volts.
    """
    before = talk.words[thing.start - 1]
    if thing.name == "flare nut":
        return (
            before in NUMBER_WORDS or before[:1].isdigit() or before in ("eighths", "half", "quarter", "inch")
        )
    behind = talk.words[thing.end : thing.end + 3]
    if thing.name == "orifice":  # "new valve, orifice number four"
        return bool(behind) and (behind[0] in ("number", "size") or behind[0] in NUMBER_WORDS)
    if talk.words[thing.start] == "coil" and (before in NUMBER_WORDS or before[:1].isdigit()):
        counted = talk.words[thing.start - 2] == "number" if thing.start > 1 else False
        return not counted and not thing.plural  # "three pole, one twenty coil"
    volts = (
        any(w in ("volt", "volts", "v", "vac") for w in behind)
        and bool(behind)
        and (behind[0] in NUMBER_WORDS or behind[0][:1].isdigit())
    )  # "a contactor, 3 pole 50, coil 24 volt"
    return talk.words[thing.start] == "coil" and (before in ("volt", "volts", "v") or volts)


def only_numbers(talk: Talk, k: int, end: int) -> bool:
    """Tell whether nothing but a rating stands from word k to the next comma or full stop."""
    while k < end and talk.words[k] not in (",", ".", "and", "in", "on"):
        word = talk.words[k]
        if not (word in NUMBER_WORDS or word[0].isdigit() or word in word_set("rating_joins")):
            return False
        k += 1
    return True


def letters_of_a_mark(talk: Talk, k: int) -> bool:
    """Tell whether word k is the letters before the digits of a part's mark: "one accumulator, ACC 310"."""
    word, behind = talk.words[k], talk.words[k + 1 : k + 2]
    short = (
        word.isalpha() and len(word) <= 4 and word not in ("and", "with", "the", "a", "for", "in", "on", "at")
    )
    return is_mark(word) or (short and bool(behind) and behind[0][:1].isdigit())


def is_mark(word: str) -> bool:
    """Tell whether a word is written like the mark of a part: letters, then digits, and no refrigerant."""
    return (
        len(word) >= 3
        and word[0].isalpha()
        and word[-1].isdigit()
        and not (word[0] == "r" and word[1:4].lstrip("-")[:2].isdigit())
    )


def like_the_old_one(talk: Talk, k: int) -> int | None:
    """Return the word behind "the same thing", "its twin", "a like one", if such words stand at word k.

    "The same one back" is the old one.
    """
    if talk.words[k] not in word_set("opens_like_the_old"):
        return None
    for n in (4, 3, 2):
        if " ".join(talk.words[k : k + n]) in word_set("like_the_old"):
            same = talk.words[k : k + n][-1] == "one" or n == 2
            behind = talk.words[k + n : k + n + 2]
            return None if "back" in behind and same and "same" in talk.words[k : k + n] else k + n
    return None
