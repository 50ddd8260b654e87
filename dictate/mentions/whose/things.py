"""Parts of the machine named in a narration: where, by which preferred name, and what a bare word stands for.

"Things" are the components of components.toml and the further parts of parts.toml. A general word ("the fan",
"the cap") stands for the last more exact one of its family; "coil of the harvest valve" is the valve's coil.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass, replace
from functools import cache
from operator import attrgetter

from dictate.mentions.narration import lowers
from dictate.mentions.patterns import Words
from dictate.mentions.whose.of_which_part import (
    cap_of_port,
    core_of_drier,
    filter_of_circuit,
    is_no_part_alone,
    is_none_here,
    line_of_drain,
    marked_by_a_range,
    named_otherwise,
    speaks_of_capacitors,
    tells_which_one,
    told_to_stay,
    valve_by_signs,
)
from dictate.vocabulary.load import table, word_set

_start = attrgetter("start")
_ARTICLES = word_set("articles")
_PUMPS = (("pump",), ("pumps",))
_BRAZED = ("brazed", "braze", "brazing", "recovered", "soldered", "evacuated")
_COILED = ("valve", "contactor", "relay", "solenoid")


@dataclass(frozen=True, slots=True)
class Thing:
    """A part at the words [start, end). `modifier` marks one that only says whose part another is."""

    start: int
    end: int
    name: str
    part: str
    plural: bool = False
    generic: bool = False
    modifier: bool = False


@cache
def _lexicon() -> tuple[
    dict[tuple[str, ...], str], frozenset[str], dict[str, frozenset[str]], frozenset[str], dict[str, int]
]:
    """Return phrase -> name, the general names, their families, the names that need an article.

    Last: first word -> how many words the longest phrase has that begins so.
    """
    phrases: dict[tuple[str, ...], str] = {}
    generic: set[str] = set()
    families: dict[str, frozenset[str]] = {}
    article: set[str] = set()

    def put(phrase: str, name: str) -> None:
        words = tuple(w for w in lowers(phrase) if w not in ("'s",))
        if not words:
            return
        phrases.setdefault(words, name)
        last = words[-1]
        if last.isalpha() and not last.endswith("s"):
            phrases.setdefault((*words[:-1], last + "s"), name)

    # A part's own name goes before what it belongs to: "valve core" is measured nowhere, but it is replaced.
    for name, ways in table("parts")["names"].items():
        put(name, name)
        for said in ways:
            put(said, name)
    for entry in table("components").get("component", []):
        name = entry["name"]
        put(name, name)
        for said in entry.get("said", []):
            if said not in entry.get("shared", ()):
                put(said, name)
        if entry.get("generic"):
            generic.add(name)
            families[name] = frozenset(entry.get("family", []))
        if entry.get("article"):
            article.add(name)
    longest: dict[str, int] = {}
    for words in phrases:
        longest[words[0]] = max(longest.get(words[0], 0), len(words))
    return phrases, frozenset(generic), families, frozenset(article), longest


_CHANGED = word_set("changed_like_a_part")
_ORDINALS = word_set("ordinals")
_BEFORE_A_SEASON = word_set("before_a_season")
_WOUND = word_set("said_of_a_winding")
_BEFORE_A_COIL = word_set("before_an_a_coil")
_BAD = word_set("failed")
_CALLED_BAD = word_set("called_bad")
_GOOD = word_set("found_good")
_PUTS_IN = ("put", "hung", "fitted", "stuck", "installed")


def _coil_before(words: Words, out: list[Thing], i: int) -> Thing | None:
    """Return the valve or contactor whose coil was spoken of last, unless a heat exchanger was since."""
    for thing in reversed(out):
        if i - thing.start > 40 or thing.name in ("condenser coil", "evaporator coil"):
            break
        if thing.part.endswith(" coil"):
            return thing
    row = words.words
    first = next((k + 1 for k in range(i - 1, max(0, i - 4) - 1, -1) if row[k] in (",", ".")), max(0, i - 4))
    wound = any(w in _WOUND for w in row[i + 1 : i + 7])
    if not wound and not any(w in _CHANGED for w in (*row[first:i], *row[i + 1 : i + 2])):
        return None
    if any(w in _BRAZED for w in row[max(0, i - 60) : i + 60]):
        return next((t for t in reversed(out) if i - t.start < 300 and t.part.endswith(" coil")), None)
    for thing in reversed(out):
        if i - thing.start > 200:
            break
        if any(k in thing.name for k in _COILED) and thing.name not in word_set("valves_without_coils"):
            return replace(thing, part=thing.part if thing.part.endswith(" coil") else f"{thing.name} coil")
    # A coil that is swapped like a part is a valve's; one of tubes is brazed in.
    return next((t for t in reversed(out) if i - t.start < 300 and t.part.endswith(" coil")), None)


def _is_new(words: Words, i: int) -> bool:
    before = words.words[max(0, i - 3) : i]
    if "new" in before or "replacement" in before:
        return True
    if before[-1:] and before[-1] in _CALLED_BAD:
        return True  # "swapped the dead heater"
    # "I put a heater in": one that was not there goes where one had failed
    return before[-1:] == ("a",) and any(w in _PUTS_IN for w in before)


def _found_good(words: Words, out: list[Thing], name: str) -> bool:
    """Tell whether the part of this name told of last was found good ("drain heater is 290, that's fine")."""
    thing = next((t for t in reversed(out) if t.name == name), None)
    if thing is None:
        return False
    if any(told_to_stay(words, t.end) for t in out if t.name == name):
        return True
    told = words.words[thing.end : thing.end + 10]
    stop = next((k for k, w in enumerate(told) if w in (".", ";", "but", "and")), len(told))
    told = told[:stop]
    return any(w in _GOOD for w in told) and not any(w in _BAD or w in ("not", "isn't", "no") for w in told)


def _note_bad(words: Words, thing: Thing, bad: dict[str, Thing]) -> None:
    """Remember a part that is said to have failed, for the new one that comes later."""
    after = words.words[thing.end : thing.end + 7]
    stop = next((k for k, w in enumerate(after) if w in (".", "so", "but", "and")), len(after))
    told = after[:stop]
    if thing.part.endswith("valve"):
        told = tuple(w for w in told if w != "open")  # an open valve is not a bad one
    dead = any(w in _BAD for w in told) or any(
        told[k : k + 2] == ("no", "continuity") for k in range(len(told))
    )
    if dead and "not" not in told:
        for word in ("coil", "valve", "motor", "switch", "sensor", "heater"):
            if thing.part.endswith(word):
                bad[word] = thing


def _meant(
    name: str, family: frozenset[str], recent: dict[str, int], words: Words, i: int, ordered: dict[str, str]
) -> str:
    """Return the part that a general name stands for at word i."""
    exact = [f for f in family if f in recent and i - recent[f] < 150]
    before = words.words[max(0, i - 3) : i]
    behind = words.words[i + 1 : i + 2]
    counted = (
        any(w in _ORDINALS or w == "number" for w in before)
        or words.words[i].endswith("s")
        or (behind != () and (behind[0].isdigit() or behind[0] in ("one", "two", "three", "four", "number")))
    )
    earlier = words.words[max(0, i - 200) : i]
    if name == "heater" and (counted or not exact):
        if name in ordered:
            return ordered[name]
        near = (*earlier, *words.words[i : i + 60])
        if "defrost" in near or "termination" in near or "defrosts" in near or "defrosting" in near:
            ordered[name] = "defrost heater"
            return "defrost heater"
    if name == "capacitor" and not exact:
        return name if "start" in earlier[-25:] or marked_by_a_range(words, i) else "run capacitor"
    if (
        name == "relay"
        and not exact
        and any(w in earlier[-60:] for w in ("ptc", "overload", "compressor", "start"))
    ):
        return "start relay"
    if name == "fan motor" and not exact:
        said = words.words[i + 1 : i + 5]
        if said[:1] in (("on",), ("of",), ("in",)):  # "three fans on the evaporator"
            whose = next((w for w in said if w in ("evaporator", "condenser")), None)
            if whose is not None and "," not in said[: said.index(whose)]:
                return f"{whose} fan motor"
            if said[:2] == ("in", "the") and said[2:3] and said[2] in word_set("cold_inside"):
                return "evaporator fan motor"  # "one of the fans in the box"
        evaporator = max(
            (
                k
                for k, w in enumerate(earlier)
                if w in word_set("cold_side_signs") and not _of_a_unit(earlier, k)
            ),
            default=-1,
        )
        condenser = max(
            (k for k, w in enumerate(earlier) if w in ("condenser", "condensing", "outdoor", "roof")),
            default=-1,
        )
        if evaporator > condenser:
            return "evaporator fan motor"
        if condenser > evaporator:
            return "condenser fan motor"
    return max(exact, key=lambda f: recent[f]) if exact else name


def _of_a_unit(row: tuple[str, ...], k: int) -> bool:
    """Tell whether a cold sign only says for what a condensing unit is ("... unit for the flower cooler")."""
    if row[k] not in ("cooler", "freezer", "case", "box"):
        return False
    return row[k + 1 : k + 2] == ("unit",) or any(w.startswith("condens") for w in row[max(0, k - 6) : k])


_TERMINATION = "defrost termination switch"  # "Termination klixon open. Fitted a new klixon"


def _bare(word: str, i: int, recent: dict[str, int], words: Words) -> Thing | None:
    """Return the part that a bare word ("the timer", "that coil") stands for at word i."""
    family = table("parts")["bare"].get(word)
    if family is None or is_no_part_alone(words, i, recent):
        return None
    exact = [f for f in family if f in recent and i - recent[f] < 150]
    if not exact:
        # The only one of the family that was spoken of is still meant much later.
        named = [f for f in family if f in recent and f != word and i - recent[f] < 500]
        exact = named if len(named) == 1 and word in ("valve", "switch", "sensor", "motor") else []
    name = (
        max(exact, key=lambda f: recent[f])
        if exact
        else (family[0] if len(family) == 1 else word.rstrip("s"))
    )
    if word == "filter" and not exact and filter_of_circuit(words, i):
        return Thing(i, i + 1, "filter drier", "filter drier")
    if word in ("filter", "filters") and not exact:
        start, end = words.sentences[words.sentence_of[i]]
        wet = word_set("water_signs")
        near = (*words.words[start:end], *words.words[max(0, i - 80) : i])
        by_size = "by" in words.words[i + 1 : i + 8]  # "new filter, a 20 by 20 by 1": of the air
        name = "air filter" if by_size or not any(w in wet for w in near) else "water filter"
        return Thing(i, i + 1, name, name, plural=word.endswith("s"))
    if word == "valve" and not exact and (valve := valve_by_signs(words, i)) is not None:
        return Thing(i, i + 1, valve, valve)
    if word in ("motor", "motors") and (not exact or name == "fan motor"):
        meant = (
            _meant("fan motor", frozenset(family), recent, words, i, {})
            if "fan" in words.words[max(0, i - 150) : i] or "fans" in words.words[max(0, i - 150) : i]
            else name
        )
        return Thing(i, i + 1, meant, meant, plural=word.endswith("s"), generic=meant == name)
    return Thing(i, i + 1, name, name, plural=word.endswith("s"), generic=not exact and len(family) > 1)


def _explained(words: Words, i: int, phrases: dict[tuple[str, ...], str], longest: int) -> Thing | None:
    """Return the coil that the next words name ("the coil, reversing valve coil")."""
    row = words.words
    k = next((j for j in range(i + 1, min(i + 4, len(row))) if row[j] == ","), None)
    if row[i + 1 : i + 2] in (("for",), ("of",), ("on",)):
        at = i + 2 if row[i + 2 : i + 3] == ("the",) else i + 1
        at += row[at + 1 : at + 2] != () and row[at + 1] in word_set("which_of_two")
        for length in range(min(longest, len(row) - at - 1), 0, -1):
            name = phrases.get(row[at + 1 : at + 1 + length])
            if name is not None and any(c in name for c in _COILED):
                return Thing(i, at + 1 + length, name, f"{name} coil")
    if k is None:
        return None
    for length in range(min(longest, len(row) - k - 1), 0, -1):
        name = phrases.get(row[k + 1 : k + 1 + length])
        if (
            name is not None
            and any(c in name for c in _COILED)
            and "coil" in row[k + length : k + 2 + length]
        ):
            return Thing(i, i + 1, name, f"{name} coil")
    return None


def things_of(words: Words) -> list[Thing]:
    """Return the parts named in the narration, longest phrases first, in their order; made once."""
    found = words.narration.found.get("things")
    if isinstance(found, list):
        return found
    phrases, generic, families, article, longest = _lexicon()
    out: list[Thing] = []
    i, n = 0, len(words.words)
    recent: dict[str, int] = {}
    ordered: dict[str, str] = {}
    bad: dict[str, Thing] = {}
    bare = table("parts")["bare"]
    while i < n:
        hit = None
        word = words.words[i]
        if word not in longest and word not in bare and word != "heat":
            i += 1
            continue
        for length in range(min(longest.get(word, 0), n - i), 0, -1):
            key = words.words[i : i + length]
            if key in phrases:
                hit = (length, phrases[key])
                break
        if hit is None and word in ("line", "lines") and line_of_drain(words, i):
            out.append(Thing(i, i + 1, "drain line", "drain line"))
            i += 1
            continue
        if hit is None and words.words[i] == "heat" and words.words[i + 1 : i + 2] in _PUMPS:
            i += 2  # the machine, and no pump
            continue
        if is_none_here(words, i):
            i += 1
            continue
        if hit is not None and tells_which_one(words, i, hit):
            i += 1
            continue
        if hit is None:
            thing = _bare(words.words[i], i, recent, words)
            if (
                thing is not None
                and words.words[i] in ("coil", "valve", "motor", "switch", "sensor")
                and _is_new(words, i)
                and words.words[i] in bad
            ):
                broken = bad[words.words[i]]
                thing = replace(thing, name=broken.name, part=broken.part, generic=False)
            elif thing is not None and thing.generic and words.words[i] == "valve":
                owners = {t.name for t in out if t.part.endswith("valve coil")}
                if len(owners) == 1:  # the only valve told of so far, by its coil
                    owner = owners.pop()
                    thing = replace(thing, name=owner, part=owner, generic=False)
            elif thing is not None and words.words[i] == "coil":
                told = _explained(words, i, phrases, max(longest.values()))
                valve = _coil_before(words, out, i) if told is None else told
                if valve is not None:
                    thing = replace(thing, name=valve.name, part=valve.part, generic=False)
            if thing is not None and thing.generic and thing.name == "coil":
                thing = _explained(words, i, phrases, max(longest.values())) or thing
            if thing is not None:
                if thing.name in recent:
                    recent[thing.name] = i
                out.append(thing)
                _note_bad(words, thing, bad)
            i += 1
            continue
        length, name = hit
        if name == "spring" and length == 1 and i and words.words[i - 1] in _BEFORE_A_SEASON:
            i += 1
            continue
        if name == "hose" and length == 1 and words.words[i - 1] not in word_set("hoses_of_the_kit"):
            owned = _bare("hose", i, recent, words)
            name = owned.name if owned is not None else name
        if words.words[i : i + length] == ("a", "coil") and (
            i == 0 or words.words[i - 1] not in _BEFORE_A_COIL
        ):
            i += 1
            continue  # "I had a coil in the truck"; the one of this shape is "the A coil"
        if length == 1 and name in article and (i == 0 or words.words[i - 1] not in _ARTICLES):
            i += 1
            continue
        if name == "valve core" and length == 1 and core_of_drier(words, i):
            name = "filter drier"
        name = named_otherwise(words, i, length, name, recent)
        last = words.words[i + length - 1]
        thing = Thing(i, i + length, name, name, plural=last.endswith("s") and not last.endswith("ss"))
        if name == "receptacle" and (last.startswith("outlet") and out and out[-1].end == i):
            i += 1
            continue  # "the drier outlet" is a place
        if (
            name.endswith("capacitor")
            and words.words[i : i + length] == ("caps",)
            and not speaks_of_capacitors(words)
        ):
            i += 1
            continue  # "all caps replaced" where no capacitor is spoken of
        if name == "capacitor" and words.words[i] in ("cap", "caps") and cap_of_port(words, i):
            i += 1
            continue
        if (
            name == "fan blade"
            and length == 1
            and "scraper blade" in recent
            and i - recent["scraper blade"] < 150
        ):
            name = "scraper blade"
            thing = replace(thing, name=name, part=name)
        if words.words[i : i + length] == ("klixon",) and i - recent.get(_TERMINATION, -999) < 150:
            name, thing = _TERMINATION, replace(thing, name=_TERMINATION, part=_TERMINATION)
        if name == "door gasket" and words.words[i : i + length] in (("gasket",), ("gaskets",)):
            near = words.words[max(0, i - 25) : i + 6]
            if not any(w in word_set("door_signs") for w in near):
                name = "gasket"
                thing = replace(thing, name=name, part=name)
        if name in generic:
            family = families[name]
            off = words.words[i + length : i + length + 1] in (("off",), ("out",))
            if off or _is_new(words, i):
                family = frozenset(f for f in family if not _found_good(words, out, f)) or family
            best = _meant(name, family, recent, words, i, ordered)
            if name in bad and _is_new(words, i):
                best = bad[name].name
            elif (
                best == "access valve"
                and len(owners := {t.name for t in out if t.part.endswith("valve coil")}) == 1
            ):
                best = owners.pop()  # a valve with a coil goes before one that only lets gauges in
            thing = replace(thing, name=best, part=best, generic=best == name)
        end = thing.end
        if end < n and words.words[end] in ("coil", "coils") and any(k in thing.name for k in _COILED):
            thing = replace(thing, end=end + 1, part=f"{thing.name} coil")
        elif last in ("coil", "coils") and any(k in thing.name for k in _COILED):
            thing = replace(thing, part=f"{thing.name} coil")
        if (
            out
            and i - out[-1].end <= 2
            and words.words[out[-1].end : i]
            in (("of",), ("of", "the"), ("for", "the"), ("for",), ("on", "the"), ("on",))
        ) or (
            out
            and i - out[-1].end == 3
            and words.words[out[-1].end : i - 1] in (("for", "the"), ("of", "the"))
            and words.words[i - 1] in _ORDINALS
        ):
            thing = replace(thing, modifier=True)
        if not thing.part.endswith("valve coil") and words.words[i : i + length] != ("hot", "gas"):
            recent[thing.name] = i  # "the hot gas valve's coil" makes no later "valve" that one
        out.append(thing)
        _note_bad(words, thing, bad)
        i = thing.end
    words.narration.found["things"] = out
    return out


def thing_at(things: list[Thing], i: int) -> Thing | None:
    """Return the part whose words include word i."""
    k = bisect_right(things, i, key=_start) - 1
    return things[k] if k >= 0 and things[k].start <= i < things[k].end else None
