"""Numbers that are a part's and not the machine's."""

from __future__ import annotations

from dictate.mentions.equipment.machine_words import phrases
from dictate.mentions.patterns import Words
from dictate.mentions.things import things_of
from dictate.vocabulary.load import word_set

_MACHINES_OF_THEIR_OWN = word_set("parts_with_plates", "machine_words")
_BESIDE = word_set("beside_part_number")


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
    sentence = row[start:i]
    return any(
        w in ("new", "replacement", "replaced", "installed", "fitted", "swapped", "spare", "old")
        for w in sentence
    )


def of_a_part(row: tuple[str, ...], i: int, start: int) -> bool:
    """Tell whether a number announced at word i belongs to a part ("the new one's model is ...")."""
    window = row[max(start, i - 6) : i]
    for k in range(len(window)):
        for p in phrases("not_machine"):
            tail = window[k + len(p) :]
            # "K X four fifty, serial": a comma between means another thing, unless "its" leads back.
            apart = "," in tail[:-1] and "its" not in tail
            if window[k : k + len(p)] == p and not apart and all(w in _BESIDE for w in tail):
                return True
    return False
