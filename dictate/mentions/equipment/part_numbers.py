"""Numbers that are a part's and not the machine's."""

from __future__ import annotations

from dictate.mentions.equipment.machine_words import phrases
from dictate.mentions.patterns import Words
from dictate.mentions.whose.things import things_of
from dictate.vocabulary.load import word_set

_MACHINES_OF_THEIR_OWN = word_set("parts_with_plates", "machine_words")
_BESIDE = word_set("beside_part_number")


_OF_ANYTHING = ("new", "old")
_AGES = frozenset(("year", "years", "month", "months", "week", "weeks", "yrs", "decade", "decades"))
_FAR = 25


def _part_before(words: Words, start: int, i: int) -> bool:
    """Tell whether a part was named shortly before word i that a "new one" can stand for."""
    row = words.words
    opens = max(start, i - 6)
    if any(row[k : k + 2] in (("brand", "new"), ("an", "old")) for k in range(max(0, opens - 1), i)):
        return False
    before = max(0, words.sentences[max(0, words.sentence_of[start] - 1)][0], i - _FAR)
    return any(before <= t.start < i and t.name != "condensing unit" for t in things_of(words))


def of_a_new_part(words: Words, i: int, start: int, namings: list[int]) -> bool:
    """Tell whether the sentence has told of a part put in, and of no machine since.

    "New compressor's in, model ...".
    """
    row = words.words
    told = [t for t in things_of(words) if start <= t.start and t.end <= i and not t.modifier]
    if (
        told
        and told[0].name in _MACHINES_OF_THEIR_OWN
        and told[0].start - start <= 2
        and row[told[0].end : told[0].end + 1] in (("on",), ("in",), ("of",))
    ) and not any(start <= n < told[0].start for n in namings):
        return True  # "the compressor on the walk-in is model ..."
    if not told or any(told[-1].start < n <= i for n in namings):
        return False
    if any(w in ("unit", "machine", "its", "it's") for w in row[told[-1].end : i]):
        return False
    return any(
        row[k] in ("new", "replacement", "replaced", "installed", "fitted", "swapped", "spare", "old")
        and not is_an_age(row, k)
        for k in range(start, i)
    )


def is_an_age(row: tuple[str, ...], k: int) -> bool:
    """Tell whether "old" at word k only ends an age: "only two years old"."""
    return k > 0 and row[k] == "old" and row[k - 1] in _AGES


def of_a_part(words: Words, i: int, start: int, kind: str | None = None) -> bool:
    """Tell whether a number announced at word i belongs to a part ("the new one's model is ...").

    `kind` is the type of the machine that is spoken of: "milk tank, ... tank model is" is its own number.
    """
    row = words.words
    own = set((kind or "").split())
    window = row[max(start, i - 6) : i]
    for k in range(len(window)):
        for p in phrases("not_machine"):
            tail = window[k + len(p) :]
            # "K X four fifty, serial": a comma between means another thing, unless "its" leads back.
            apart = "," in tail[:-1] and "its" not in tail
            if window[k : k + len(p)] != p or own & set(p):
                continue
            if p[0] in _OF_ANYTHING and not _part_before(words, start, i):
                continue  # "it's R-22, an old one, model ..."
            if is_an_age(row, i - len(window) + k):
                continue
            if not apart and all(w in _BESIDE for w in tail):
                return True
    return False
