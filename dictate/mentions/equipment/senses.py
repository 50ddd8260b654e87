"""Words that name a machine in one sense and something else in another.

"I walk in", "the four fan coil" (of a cold room), "a nineteen degree split", "fridge unit" on a truck.
"""

from __future__ import annotations

from dictate.mentions.equipment.machine_words import DETERMINERS, NUMBERS, Kind, senses
from dictate.mentions.patterns import NUMBER_WORDS, Words
from dictate.vocabulary.load import word_set

_WALKERS = word_set("walkers", "machine_words")
_FANS_OF_A_COIL = word_set("fans_of_a_coil", "machine_words")
_BEHIND_A_SPLIT = word_set("behind_a_split", "machine_words")
_BEFORE_A_SPLIT = word_set("before_a_split", "machine_words")
_VEHICLE_UNITS = word_set("vehicle_units", "machine_words")
_WHICH_SUPPLIER = word_set("which_supplier", "machine_words")
_A_SUPPLIER_DOES = word_set("a_supplier_does", "machine_words")
_COLD_NOUNS = frozenset(
    ("fridge", "refrigeration", "refrigerator", "reefer", "freezer", "cooling", "chiller")
)
_VEHICLES = {kind: word_set(f"{kind}_words", "machine_words") for kind in ("van", "truck", "trailer")}
_ON_A_ROOF = word_set("on_a_roof", "machine_words")
_FIRST_SENTENCES = 3


def names_none(words: Words, start: int, end: int) -> bool:
    """Tell whether the words [start, end) of a listed name mean no machine here."""
    row = words.words
    said = row[start:end]
    before = row[start - 1] if start else ""
    if said == ("walk", "in"):
        return before in _WALKERS  # "I walk in, the thermometer says ..."
    if said == ("reach", "in"):
        name = words.narration.tokens[words.tokens[end + 1]].text if end + 2 < len(row) else ""
        calls = row[end : end + 1] == (",",) and name.istitle() and len(name) > 1 and row[end + 2] == ","
        return before in _WALKERS or (calls and words.sentence_of[start] >= _FIRST_SENTENCES)
    if said in (("vendor",), ("vendors",)):
        behind = row[end] if end < len(row) else ""
        return before in _WHICH_SUPPLIER or behind in _A_SUPPLIER_DOES  # "the earlier vendor has told us"
    if said in (("prover",), ("provers",)):
        near = row[max(0, start - _NEAR_A_TEST) : end + _NEAR_A_TEST]
        return not _OF_A_DEAD_TEST.isdisjoint(near)  # "Isolator off, prover on it, dead": a tester
    if said in (("a", "c"), ("ac",)):
        return _is_a_pair_of_legs(words)  # "238 on B C and 243 on A C"
    if said[-1] in ("rooftop", "roof") and row[end : end + 1] and row[end] in _ON_A_ROOF:
        return True  # "isolated at the rooftop switch"
    if said[-1] in ("cooler", "coolers") and len(said) == 1 and _has_air_coolers(words):
        after = row[end : end + 1]
        numbered = bool(after) and (after[0] in NUMBERS or after[0].isdigit())
        return start in _has_air_coolers(words) or numbered or before in _IN_TURN_WORDS
    if said == ("fan", "coil"):
        # "It's the four fan coil": the air cooler of a cold room, by its fans.
        counted = before in _FANS_OF_A_COIL or (before.isdigit() and before != "1")
        return counted and not (start > 1 and row[start - 2] in ("number", "no", "#", "unit"))
    return False


def _is_a_pair_of_legs(words: Words) -> bool:
    """Tell whether "A C" is between two legs of a supply, for another pair is named: "A B", "BC"."""
    row = words.words
    if not {"ab", "bc"}.isdisjoint(row):
        return True
    return any(row[k + 1 : k + 2] == ("c",) for k in words.places.get("b", ()) if k and row[k - 1] != "a")


def _has_air_coolers(words: Words) -> frozenset[int]:
    """Return where the air coolers of a cold room are counted: "chamber 3, with two coolers inside"."""
    found: frozenset[int] | None = words.narration.found.get("air_coolers")
    if found is None:
        row = words.words
        found = words.narration.found["air_coolers"] = frozenset(
            k
            for k in words.places.get("coolers", ())
            if k > 1
            and (row[k - 1] in NUMBERS or row[k - 1].isdigit() or row[k - 1] in ("both", "twin"))
            and row[k - 2] in ("with", "has", "its")
            and words.sentence_of[k] < _FIRST_SENTENCES
            and row[k + 1 : k + 2]
            and row[k + 1] in ("inside", "in", "on", "under", "hanging", "there")
        )
    return found


def kind_here(words: Words, said: tuple[str, ...], kind: Kind, i: int) -> Kind:
    """Return the kind that a name of two kinds has here: "soda machine" with syrup, or with coins."""
    for other, told, never in senses().get(said, senses().get((*said[:-1], said[-1].rstrip("s")), ())):
        if _said(words, told) and not _said(words, never):
            return other
    if (
        kind.type == "rooftop unit"
        and said[-1] in ("unit", "rooftop", "top", "package")
        and on_a_vehicle(words, i)
    ):
        return Kind("transport refrigeration unit", False)
    return kind


def on_a_vehicle(words: Words, i: int) -> bool:
    """Tell whether a unit named at word i is on a vehicle named right before: "the van, roof unit".

    A vehicle that somebody drives to the job or works from ("off the truck") is none.
    """
    row = words.words
    start, _ = words.sentences[words.sentence_of[i]]
    if words.sentence_of[i] >= _FIRST_SENTENCES:
        return False
    for k in range(max(start, i - _NEAR_ITS_VEHICLE), i):
        if not any(row[k] in said for said in _VEHICLES.values()):
            continue
        before = row[max(start, k - 4) : k]
        return not {
            "my",
            "our",
            "from",
            "off",
            "drove",
            "parked",
            "took",
            "brought",
            "to",
            "by",
            "beside",
        } & set(before)
    return False


_NEAR_ITS_VEHICLE = 8
_NEAR_A_TEST = 6
_OF_A_DEAD_TEST = frozenset(
    ("dead", "isolator", "isolated", "volts", "voltage", "locked", "proved", "proving")
)


def _said(words: Words, phrases: tuple[tuple[str, ...], ...]) -> bool:
    """Tell whether one of the phrases is said anywhere."""
    row = words.words
    return any(row[k : k + len(p)] == p for p in phrases for k in words.places.get(p[0], ()))


def split_alone(words: Words, i: int) -> bool:
    """Tell whether "split" at word i is a split system and no difference of temperatures.

    Only in the first sentences, with an article, a count or a description before it and a place or the end of
    the clause behind it: "the split at the dentist's", "two splits over the dining room".
    """
    row = words.words
    start, _ = words.sentences[words.sentence_of[i]]
    if "split" not in row[i]:
        return False
    picked = picked_one(row, start, i)
    if words.sentence_of[i] >= _FIRST_SENTENCES and not picked and not _told_as_next(row, start, i):
        return False
    before = row[i - 1] if i > start else ""
    behind = row[i + 1] if i + 1 < len(row) else "."
    if before in _OF_TEMPERATURES:
        return False
    if picked:
        return behind in _BEHIND_A_SPLIT
    if before == "a" and behind == "," and row[i - 2 : i - 1] in (("'s",), ("is",), ("it's",), ("was",)):
        # "It's a split, four ton": its size, its age or its gas goes on, and no temperature
        return not _SIZES_OF_A_SPLIT.isdisjoint(row[i + 2 : i + 6])
    if behind not in _BEHIND_A_SPLIT and not (words.sentence_of[i] == 0 and behind in _BEHIND_ITS_NAME):
        return False
    if row[i] == "splits":
        return before in DETERMINERS or before in NUMBERS or before.isdigit() or before in _BEFORE_A_SPLIT
    if before in NUMBERS or before.isdigit() or before in NUMBER_WORDS:
        return False
    return before in _BEFORE_A_SPLIT or (
        (i == start or before in DETERMINERS) and (behind not in (",", ".") or words.sentence_of[i] == 0)
    )


def picked_one(row: tuple[str, ...], start: int, i: int) -> str:
    """Return the order by which a sentence picks the machine at word i: "Second one is the ATM split"."""
    lead = row[start:i]
    k = 0
    while lead[k : k + 1] and lead[k] in ("the", "and", "then", "so", "now", "okay", ",", "right"):
        k += 1
    if not lead[k : k + 1] or lead[k] not in _IN_TURN_WORDS or len(lead) - k > _LONGEST_PICK:
        return ""
    turn = lead[k]
    k += 1 + (lead[k + 1 : k + 2] in (("one",), ("unit",), ("machine",), ("job",), ("call",)))
    if lead[k : k + 1] not in (("is",), ("'s",), ("was",), (",",), (":",)):
        return ""
    return turn if all(w.isalpha() and w not in NUMBER_WORDS for w in lead[k + 1 :]) else ""


def _told_as_next(row: tuple[str, ...], start: int, i: int) -> bool:
    """Tell whether a sentence begins with the next machine in turn: "Number three, office split"."""
    lead = row[start:i]
    counted = lead[:1] in (("number",), ("next",), ("last",), ("second",), ("third",), ("then",))
    return counted and len(lead) <= 6 and set(lead) <= _IN_TURN | _BEFORE_A_SPLIT | set(NUMBERS)


_IN_TURN_WORDS = frozenset(("first", "second", "third", "fourth", "fifth", "next", "other", "last"))
_LONGEST_PICK = 9
_SIZES_OF_A_SPLIT = frozenset(
    (
        "ton",
        "tons",
        "tonne",
        "tonner",
        "kilowatt",
        "kilowatts",
        "kw",
        "btu",
        "horsepower",
        "horse",
        "year",
        "years",
    )
)
_OF_TEMPERATURES = frozenset(
    ("temperature", "temp", "air", "delta", "return", "supply", "degree", "degrees", "coil", "kelvin", "side")
)
_BEHIND_ITS_NAME = frozenset(
    ("the", "keeps", "trips", "has", "leaking", "dripping", "freezing", "went", "stopped")
)
_IN_TURN = frozenset(
    ("number", "next", "last", "second", "third", "then", ",", "the", "one", "is", "up", "'s", "2", "3", "4")
)


def unit_of_a_vehicle(words: Words, i: int) -> int:
    """Return how many words at i name the cold unit of a vehicle that the narration tells of, or 0."""
    row = words.words
    if row[i] not in _COLD_NOUNS or row[i + 1 : i + 2] == () or row[i + 1] not in _VEHICLE_UNITS:
        return 0
    return 2 if vehicle_of(words) else 0


def vehicle_of(words: Words) -> str | None:
    """Return the kind of vehicle that the first sentences tell of: "van", "truck" or "trailer"."""
    last = words.sentences[min(_FIRST_SENTENCES, len(words.sentences)) - 1][1] if words.sentences else 0
    for w in words.words[:last]:
        for kind, said in _VEHICLES.items():
            if w in said:
                return kind
    return None
