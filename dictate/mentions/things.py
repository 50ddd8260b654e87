"""Parts of the machine named in a narration: where, by which preferred name, and what a bare word stands for.

"Things" are the components of components.toml and the further parts of parts.toml. A general word ("the fan",
"the cap") stands for the last more exact one of its family; "coil of the harvest valve" is the valve's coil.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache

from dictate.mentions.narration import lowers
from dictate.mentions.patterns import Words
from dictate.vocabulary.load import table

_ARTICLES = frozenset("the a an my this that its new old our both one another each every".split())
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
def _lexicon() -> tuple[dict[tuple[str, ...], str], frozenset[str], dict[str, frozenset[str]], frozenset[str], int]:
    """Return phrase -> name, the general names, their families, the names that need an article, the longest phrase."""
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

    for entry in table("components").get("component", []):
        name = entry["name"]
        put(name, name)
        for said in entry.get("said", []):
            put(said, name)
        if entry.get("generic"):
            generic.add(name)
            families[name] = frozenset(entry.get("family", []))
        if entry.get("article"):
            article.add(name)
    for name, ways in table("parts")["names"].items():
        put(name, name)
        for said in ways:
            put(said, name)
    return phrases, frozenset(generic), families, frozenset(article), max(len(p) for p in phrases)


def _bare(word: str, i: int, recent: dict[str, int]) -> Thing | None:
    """Return the part that a bare word ("the timer", "that coil") stands for at word i."""
    family = table("parts")["bare"].get(word)
    if family is None:
        return None
    exact = [f for f in family if f in recent and i - recent[f] < 150]
    name = max(exact, key=lambda f: recent[f]) if exact else (family[0] if len(family) == 1 else word.rstrip("s"))
    return Thing(i, i + 1, name, name, plural=word.endswith("s"), generic=not exact and len(family) > 1)


def _explained(words: Words, i: int, phrases: dict[tuple[str, ...], str], longest: int) -> Thing | None:
    """Return the coil that the next words name ("the coil, reversing valve coil")."""
    row = words.words
    k = next((j for j in range(i + 1, min(i + 4, len(row))) if row[j] == ","), None)
    if k is None:
        return None
    for length in range(min(longest, len(row) - k - 1), 0, -1):
        name = phrases.get(row[k + 1 : k + 1 + length])
        if name is not None and any(c in name for c in _COILED) and row[k + 1 + length : k + 2 + length] == ("coil",):
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
    while i < n:
        hit = None
        for length in range(min(longest, n - i), 0, -1):
            key = words.words[i : i + length]
            if key in phrases:
                hit = (length, phrases[key])
                break
        if hit is None:
            thing = _bare(words.words[i], i, recent)
            if thing is not None and thing.generic and thing.name == "coil":
                thing = _explained(words, i, phrases, longest) or thing
            if thing is not None:
                if thing.name in recent:
                    recent[thing.name] = i
                out.append(thing)
            i += 1
            continue
        length, name = hit
        if length == 1 and name in article and (i == 0 or words.words[i - 1] not in _ARTICLES):
            i += 1
            continue
        last = words.words[i + length - 1]
        thing = Thing(i, i + length, name, name, plural=last.endswith("s") and not last.endswith("ss"))
        if name in generic:
            exact = [f for f in families[name] if f in recent and i - recent[f] < 150]
            best = max(exact, key=lambda f: recent[f]) if exact else name
            thing = replace(thing, name=best, part=best, generic=best == name)
        end = thing.end
        if end < n and words.words[end] in ("coil", "coils") and any(k in thing.name for k in _COILED):
            thing = replace(thing, end=end + 1, part=f"{thing.name} coil")
        if out and i - out[-1].end <= 2 and words.words[out[-1].end : i] in (("of",), ("of", "the"), ("for", "the"), ("for",), ("on", "the"), ("on",)):
            thing = replace(thing, modifier=True)
        recent[thing.name] = i
        out.append(thing)
        i = thing.end
    words.narration.found["things"] = out
    return out


def thing_at(things: list[Thing], i: int) -> Thing | None:
    """Return the part whose words include word i."""
    from bisect import bisect_right

    k = bisect_right([t.start for t in things], i) - 1
    return things[k] if k >= 0 and things[k].start <= i < things[k].end else None
