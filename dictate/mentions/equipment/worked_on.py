"""Which namings are machines that are worked on; the others are places, parts and comparisons."""

from __future__ import annotations

from dictate.mentions.equipment.leads import (
    LONGEST_LEAD,
    NEXT,
    RACKS,
    STANDS,
    chosen_of_several,
    cooled_by_one,
    is_a_side,
    left_alone,
    listed_by_its_warmth,
    listed_together,
    one_that_runs,
    only_near,
    only_talked_of,
    says_a_value,
    says_next,
    shortened,
    stands_for_its_box,
    the_same_tank,
    with_a_plate,
    works_of_its_own,
)
from dictate.mentions.equipment.machine_words import (
    DETERMINERS,
    MOVES,
    NUMBERS,
    Kind,
    phrases,
    unknown_words,
    words_ending_at,
)
from dictate.mentions.equipment.namings import Naming, counts_several
from dictate.mentions.equipment.senses import picked_one
from dictate.mentions.patterns import NUMBER_WORDS, Words
from dictate.mentions.tense import Scopes
from dictate.vocabulary.load import table, word_set

_WAYS = frozenset(("up", "down", "over", "back", "out", "across", "on"))
_STANDS_FOR = frozenset(("for", "of", "serving", "feeding", "to", "at", "near", "by"))
_IN_ROWS = frozenset(("walk-in cooler", "condensing unit"))
_FED_BY = frozenset(("rack", "condensing unit", "air handler", "furnace"))
_WITH_ANOTHER = frozenset(
    ("condensing unit", "rack", "CO2 rack", "air handler", "furnace", "air cooled condenser", "milk vat")
)
_HEADING = ((",",), (".",), (":",))
_LEADS = frozenset(("oh", "and", "so", "then", "now", "also", "okay", "well", ","))
_MOST_LEADS = 3
_GENERAL = frozenset(("freezer", "cooler", "case", "van"))
_SERVES = (("feeds",), ("feeding",), ("serves",), ("serving",), ("supplies",), ("supply",))
_BOXES = frozenset(("walk-in cooler", "walk-in freezer", "split system", "heat pump", "ducted reverse cycle"))
_BEFORE = frozenset(("before", "earlier", "originally", "once", "ago"))
_DESCRIBED_IN = 4  # sentences in which a machine is still introduced
_NOT_PASSED = word_set("not_passed", "machine_words")
_VEHICLES = word_set("vehicles", "machine_words")
_ON_VEHICLES = word_set("on_vehicles", "machine_words")


def worked_on(namings: list[Naming], words: Words, scopes: Scopes) -> list[Naming]:
    """Keep the namings of machines that are worked on; drop places, parts and comparisons."""
    row = words.words
    out: list[Naming] = []
    rows = [n for n in namings if n.plural and counts_several(words, n)]
    also: dict[str, Naming] = {}  # other kinds by which a machine was called in the same breath
    run_by: dict[str, Naming] = {}  # the box that one of several condensing units runs, by its last word
    together = listed_together(words, namings)
    served: set[tuple[str, ...]] = set()  # what a machine serves ("feeds the produce cooler"), and its noun
    for n in namings:
        start, end = words.sentences[words.sentence_of[n.start]]
        if n.start in together:
            out.append(n)
            continue
        if n.kind.type in also and not n.plural:
            same_one = also[n.kind.type]  # "the ice machine, that's a flaker ... Flaker."
            out.append(Naming(n.start, n.end, same_one.kind, same_one.name, False, short=True))
            continue
        if (unit := one_that_runs(words, n, rows)) is not None:
            run_by[row[n.end - 1]] = unit
            continue  # "left one runs the beer cooler, right one runs the freezer"
        runs = next((run_by[w] for w in row[n.start : n.end] if w in run_by), None)
        if runs is not None and not n.plural:
            if n.start - start <= 3:
                out.append(Naming(n.start, n.end, runs.kind, runs.name, False))
            continue  # "The freezer unit. Runs, but ..."
        general = _of_a_row(n, rows, words, out) or _case_again(n, namings, words)
        if general is not None:
            n.kind = general
        i = n.start
        while i - 1 >= start and (
            row[i - 1] in DETERMINERS
            or any(row[i - 1] in p for p in phrases("ordinals"))
            or row[i - 1] in NUMBER_WORDS
            or row[i - 1] in ("door", "drawer", "stainless", "ton", "sandwich", "number", "no", "#", "unit")
            or row[i - 1].isdigit()
        ):
            i -= 1
        far = i  # ... and past the words for whose it is and what it looks like
        while far - 1 >= start and (
            row[far - 1] in DETERMINERS
            or (row[far - 1] in unknown_words("no_part") and row[far - 1] not in _NOT_PASSED)
        ):
            far -= 1
        # "walk-in cooler evaporator", "freezer door" are parts of it; still its naming.
        place = words_ending_at(row, i, "place", start)
        moved = row[i - 1] == "to" and i - 2 >= start and row[i - 2] in MOVES
        moved = moved or (
            bool(out)
            and row[i - 1] == "to"
            and i - 3 >= start
            and row[i - 2] in _WAYS
            and row[i - 3] in MOVES
        )
        introduced = words_ending_at(row, i, "introduces", start)
        for j in (far, *range(i + 1, n.start + 1)):
            # "It's the ...", ", second the ...": what introduces it has the article or the number in it.
            length = words_ending_at(row, j, "introduces", start)
            if length and (
                j == far or j - length == start or row[j - length - 1] in (",", ":", "and", "then", "so")
            ):
                introduced = max(introduced, length)
        if not introduced and (
            says_next(row, start, i if i < n.start else far)
            or ((not rows or n.kind.type == rows[-1].kind.type) and picked_one(row, start, n.start))
        ):
            introduced = 1  # "next one along is the upright fridge", "third up is the bagged ice freezer"
        chosen = bool(out) and i - 3 >= start and chosen_of_several(row[i - 3 : i])
        if introduced > place or chosen:
            place = 0  # "called out to a heat pump", "the ticket is for the freezer"
        elif place and not moved:
            introduced = 0
        opens = far == start or i == start or (row[i - 1] in (",", ":", "-") and (i - start <= 6))
        opens = opens or (i - start <= _MOST_LEADS and set(row[start:i]) <= _LEADS)
        opens = opens or (row[far - 1] in (",", ":") and far - start <= 4)
        opens = opens or (not out and words.sentence_of[i] == 0 and row[i - 1] in (",", ":"))
        if out and place and row[i - place : i] in _SERVES and words.sentence_of[i] <= 1:
            served |= {row[n.end - 1 : n.end], row[n.start : n.end]}
        if stands_for_its_box(words, n, i, out):
            served |= {row[n.end - 1 : n.end], row[n.start : n.end]}
            continue  # "Condensing unit on the roof for the dairy cooler"
        if row[n.start : n.end] in served and not n.plural and machine_key(n.name, n.kind.type) == "":
            continue  # "Number 3 condensing unit, feeds the produce cooler ... Cooler was 51"
        if is_a_side(row, n) and any(o.kind.type in RACKS for o in out):
            continue  # "freezer suction is twelve point eight" on a pack
        if n.kind.type == "fan coil" and any(o.kind.type in _BOXES for o in out):
            continue  # the air cooler of the box, the indoor part of the split
        if out and i - start <= 4 and (door := _part_of_one(words, n, i, out)) is not None:
            out.append(Naming(n.start, n.end, door.kind, door.name, False, short=True))
            continue
        if (
            place
            and not (row[i - 1] == "to" and i - 2 >= start and row[i - 2] in MOVES)
            and not (out == [] and row[i - place : i] in (("with",), ("by",), ("under",), ("new",), ("old",)))
        ):
            continue
        if scopes.reported(start, n.start) and out:
            continue
        if out and not introduced and only_talked_of(words, n, out):
            continue  # "He wants his prep table looked at too, separate quote"
        if out and row[i - 1] == "had" and i < n.start and not _BEFORE.isdisjoint(row[n.end : end]):
            continue  # "They had a window unit before"
        if out and left_alone(row[max(start, i - LONGEST_LEAD) : i]):
            continue  # "I did not look at the ice machine"
        if out and row[i - 1] == "and" and i < n.start and not n.plural and says_a_value(row, n.end):
            chosen = True  # "the cooler is thirty nine and the freezer eleven"
        on_it = (
            chosen or (moved and row[i - 2] in _WAYS) or (i > start and row[i - 1] in ("at", "on", "back"))
        )
        if out and start <= out[-1].start and i - out[-1].end <= 1 and row[out[-1].end] == ",":
            continue  # "larder fridge, back bar": where it stands
        told = (
            row[i - 1] in ("is", "'s")
            and i - 2 >= start
            and row[i - 2] in word_set("selecting", "machine_words")
        )
        if (
            general is not None
            and not general.weak
            and (told or i == start or row[i - 1] in (",", "and", "then"))
        ):
            out.append(n)  # "two condensing units ... cooler unit is model CU-15, freezer is CU-30"
            continue
        comes_next = n.kind.type in ("freezer", "cooler") and row[i] in NEXT and not n.plural and i < n.start
        if comes_next and not any(n.kind.type in o.kind.type or n.kind.type in o.name for o in out):
            out.append(n)  # "Last the freezer, a two door"
            continue
        listed = bool(out) and start <= out[-1].start and row[i - 1] == "and"
        listed = listed and i - max(out[-1].end, out[-1].last) <= 1
        if listed and not n.kind.weak and words.sentence_of[i] <= 1:
            out.append(n)  # "the prep table and the reach-in freezer next to it"
            continue
        fed = n.plural and n.kind.type in ("display case", "case") and any(o.kind.type in RACKS for o in out)
        if fed and not introduced and not counts_several(words, n):
            continue  # "Dairy cases back at three degrees": what the rack cools
        cooled = not chosen and cooled_by_one(words, n, namings, out)
        if (cooled or listed_by_its_warmth(words, n, out)) and not introduced:
            continue  # "Meat case is at forty-four, produce forty-three"
        headed = i == start and any(o.start in together and o.kind.type == n.kind.type for o in out)
        if not introduced and (tank := the_same_tank(n, out)) is not None:
            out.append(tank)
            continue
        if out and not introduced and not headed and only_near(words, n):
            continue  # "the ice machine next door"
        late = n.kind.type in _FED_BY and n.kind.weak and out == [] and words.sentence_of[i] > 2
        if late and row[n.last : n.last + 1] and row[n.last] not in word_set("goes_on_with", "machine_words"):
            continue  # "pack suction was 3.3 bar"
        if out and out[-1].kind.type in _VEHICLES and n.kind.type in _ON_VEHICLES:
            continue  # "dairy van, roof unit"
        told_apart = machine_key(n.name, n.kind.type)
        if (
            n.kind.weak
            and told_apart
            and not n.plural
            and any(
                o.kind.type == n.kind.type and machine_key(o.name, o.kind.type) != told_apart for o in out
            )
            and (opens or introduced or on_it or i - start <= 3)
        ):
            out.append(n)  # "condensing unit two", "the second freezer": one of several of a kind
            continue
        if n.kind.type == "van" and not any(o.kind.type in _VEHICLES for o in out):
            continue
        if (
            out
            and told_apart in ("", "first")  # "first ice maker" of an ice maker and a fridge
            and (on_it or opens or introduced or i - start <= _MOST_LEADS)
            and (whole := shortened(words, n, out)) is not None
        ):
            # "Reach-in, propane" after "the reach-in freezer": a short name of one that was named.
            out.append(Naming(n.start, n.end, whole.kind, whole.name, n.plural, short=True))
            continue
        if n.kind.weak and out and (on_it or opens or introduced):
            # "at the case", "back on the freezer": a short name of one that was named.
            meant = [
                o
                for o in out
                if n.kind.type in o.kind.type or (n.kind.type == "van" and o.kind.type in _VEHICLES)
            ]
            said_so = {o.kind.type: o for o in out if row[o.end - 1] == row[n.end - 1] and not o.short}
            if len(said_so) == 1 and not (meant and row[meant[-1].end - 1] == row[n.end - 1]):
                meant = [*said_so.values()]  # "fridge" is the under-counter fridge and not the water cooler
            if meant:
                out.append(Naming(n.start, n.end, meant[-1].kind, meant[-1].name, n.plural, short=True))
                continue
        if (out and start <= out[-1].start and i - out[-1].end <= 3 and row[i - 1] in _STANDS_FOR) or (
            i - 2 >= start
            and row[i - 1] in DETERMINERS
            and row[i - 2] in _STANDS_FOR
            and out
            and out[-1].start >= start
            and i - out[-1].end <= 3
        ):
            continue
        if n.kind.weak:
            if n.kind.type == "case" and opens and (only_told := _moaned_about(words, n, namings, out)):
                out.append(Naming(n.start, n.end, only_told.kind, only_told.name, False))
                continue  # "... his dairy case. Case probe nine point five" on a rack
            known = [o for o in out if _related(o.kind.type, n.kind.type)]
            first_rack = n.kind.type in RACKS and not any(o.kind.type in RACKS for o in out)
            own = opens and (with_a_plate(words, n) or works_of_its_own(words, n, i == start or far == start))
            if known and first_rack and (own or introduced_anew(words, n)):
                out.append(n)  # "Ticket two, the low temp rack itself, ..." after the case
                continue
            alone = i == start and n.end >= end - 1 and n.kind.type not in _WITH_ANOTHER | _GENERAL
            if known and not alone:  # "The ice bank." is a heading
                continue
            if (not introduced and not opens) or n.kind.type == "case":
                continue
            if out and n.kind.type in _WITH_ANOTHER:
                continue
        same = [o for o in out if o.kind.type == n.kind.type]
        beside = i - start > 3 and row[i - 1] not in ("on", "at")
        plated = {"model", "serial"} & set(row[n.end : words.sentences[words.sentence_of[n.start]][1]])
        if row[i - 1] in ("and", "but") and (row[n.end : n.end + 1] in STANDS or plated):
            beside = False  # "..., and the walk-in sits at 37"
        if out and not same and not introduced and not opens and beside:
            # A machine of another kind in the middle of a sentence is mostly a place or a neighbour.
            continue
        if out and described(out[-1].kind.type, n.kind.type) and not told_apart:
            near = words.sentence_of[n.start] - words.sentence_of[out[-1].start]
            near -= words.sentence_of[n.start] < _DESCRIBED_IN  # "It's the heat pump. Blows warm. Ducted ..."
            if near <= 1 and not {"next", "then", "second", "also", "another", "and"} & set(row[start:i]):
                also[n.kind.type] = out[-1]
                continue  # "Heat pump, north side. Three ton split, ...": what the machine is, once more
        if n.kind.type == "display case" and out and out[-1].kind.type == "rack" and out[-1].start >= start:
            out.pop()
        returned = chosen or (row[i - 1] in ("on", "at", "back", "in") and i - start <= 3)
        if same and not introduced and not opens and not returned and machine_key(n.name, n.kind.type) == "":
            continue
        out.append(n)
    return out


def _of_a_row(n: Naming, rows: list[Naming], words: Words, out: list[Naming]) -> Kind | None:
    """Return what a general word means after machines were counted: "two walk-ins. The freezer ..."."""
    numbered = any(w.isdigit() or w in NUMBERS for w in n.name.split())
    opens = n.start == words.sentences[words.sentence_of[n.start]][0]
    number = words.words[n.end] if n.end < len(words.words) else ""
    if opens and rows and number.isdigit() and number in words.words[rows[0].start : n.start]:
        n.name, n.last, numbered = (
            f"{n.name} {number}",
            n.end + 1,
            True,
        )  # "Produce cases 11 and 12. Case 11 air ..."
    numbered = numbered and (opens or any(r.kind.type in ("case", "display case") for r in rows))
    if n.kind.type == "case" and numbered and any(o.kind.type == "display case" for o in out):
        return Kind("display case", True)
    counted = {r.kind.type for r in rows if r.start < n.start}
    plain = words.words[n.end - 1] in ("freezer", "cooler")
    if plain and n.kind.type in ("freezer", "cooler") and counted & _IN_ROWS and not n.plural:
        if any(o.kind.type == f"reach-in {n.kind.type}" for o in out):
            return None
        return Kind(f"walk-in {n.kind.type}", False)
    return None


def _case_again(n: Naming, namings: list[Naming], words: Words) -> Kind | None:
    """Return a display case where "Case nine ..." opens a sentence and "case nine" was named before."""
    row = words.words
    number = row[n.end] if n.end < len(row) else ""
    if n.kind.type != "case" or not (number.isdigit() or number in NUMBERS):
        return None
    if n.start != words.sentences[words.sentence_of[n.start]][0]:
        return None
    if not any(m.kind.type == "case" and m.start < n.start and row[m.end] == number for m in namings):
        return None
    n.name, n.last = f"case {number}", n.end + 1
    return Kind("display case", False)


def without_supply(namings: list[Naming], words: Words) -> tuple[Naming | None, list[Naming]]:
    """Return the rack that only feeds the cases worked on ("on a CO2 pack. Two cases ..."), and the rest.

    Only a rack that the first words stand things on: one that is introduced for itself is a machine.
    """
    row = words.words
    racks = [n for n in namings if n.kind.type in ("rack", "CO2 rack")]
    cases = [
        n for n in namings if n.kind.type in ("display case", "case", "walk-in cooler", "walk-in freezer")
    ]
    if not racks or not cases or racks[0].start > cases[0].start or any(n.number for n in racks):
        return None, namings
    rack = racks[0]
    start, _ = words.sentences[words.sentence_of[rack.start]]
    i = rack.start
    while i > start and (row[i - 1] in DETERMINERS or row[i - 1] in NUMBER_WORDS):
        i -= 1
    if i - start < 1 or row[i - 1] not in ("on", "off", "from", "by", "of"):
        return None, namings
    return rack, [n for n in namings if n not in racks]


def introduced_anew(words: Words, n: Naming) -> bool:
    """Tell whether a room is told as the next piece of work: "job two, the ice cream room"."""
    row = words.words
    start, _ = words.sentences[words.sentence_of[n.start]]
    i = n.start
    while i > start and (row[i - 1] in DETERMINERS or row[i - 1] in (",", ":")):
        i -= 1
    if words_ending_at(row, i, "next_work", start) > 0:
        return True
    token = words.narration.tokens[words.tokens[n.start]]
    if (
        n.kind.room
        and i == start
        and token.segment
        and token.word <= 1
        and row[n.end : n.end + 1] in _HEADING
    ):
        return True  # a paragraph of its own: "Wine room, split evaporator. ..."
    while i > start and (row[i - 1] in DETERMINERS | _OF_RACKS or row[i - 1] in (",", ":")):
        i -= 1  # "the low temp rack"
    return n.kind.type in RACKS and words_ending_at(row, i, "next_work", start) > 0


_OF_RACKS = frozenset(
    ("low", "medium", "med", "high", "temp", "temperature", "parallel", "main", "back", "room")
)


def _moaned_about(words: Words, n: Naming, namings: list[Naming], out: list[Naming]) -> Naming | None:
    """Return the one case that the sentence before only told of, where a rack is worked on."""
    if not any(o.kind.type in RACKS for o in out):
        return None
    number = words.sentence_of[n.start]
    told = [m for m in namings if m.kind.type == "display case" and words.sentence_of[m.start] == number - 1]
    return told[0] if len(told) == 1 and not told[0].plural else None


def _part_of_one(words: Words, n: Naming, i: int, out: list[Naming]) -> Naming | None:
    """Return the machine a part is of that opens a sentence: "Right door of the freezer was down to zero".

    Only where it is short for one machine that was named, and another one is spoken of now.
    """
    row = words.words
    if row[i - 1] != "of" and not (row[i - 1] in DETERMINERS and row[i - 2] == "of"):
        return None
    if not n.kind.weak or n.plural:
        return None
    meant = {(o.kind.type, o.name): o for o in out if n.kind.type in o.kind.type}
    if len(meant) != 1:
        return None
    one = next(iter(meant.values()))
    return one if out[-1].kind.type != one.kind.type else None


def described(known: str, again: str) -> bool:
    """Tell whether a general name can describe a machine named by its own ("bottle cooler under the bar")."""
    described: dict[str, list[str]] = table("machines")["described_by"]
    return again in described.get(known, ())


def _related(known: str, weak: str) -> bool:
    """Tell whether a general word is only short for a machine that was named ("the freezer", "the unit")."""
    if weak == "freezer":
        return "freezer" in known or known in (
            "display case",
            "soft serve machine",
            "blast chiller",
            "beverage machine",
            "refrigerated van",
        )
    if weak == "cooler":
        return any(k in known for k in word_set("cooled"))
    return True


MEASURES = word_set("looks_counted", "machine_words")


def machine_key(name: str, kind: str) -> str:
    """Return what tells the machine from others of its kind."""
    products = {p[-1] for p in phrases("products")} if kind == "display case" else frozenset()
    said = name.split()
    kept = [
        w
        for w, behind, before in zip(said, [*said[1:], ""], ["", *said], strict=False)
        if behind not in MEASURES
        and not (w == "front" and before == "open")
        and (any(w in p for p in phrases("ordinals")) or w in NUMBERS or w.isdigit() or w in products)
    ]
    kind_words = set(kind.replace("-", " ").split())
    return " ".join(NUMBERS.get(w, w) for w in kept if w not in kind_words)
