"""The cues of a narration, and what they make of its verbs and nouns: the door to this folder."""

from __future__ import annotations

from dictate.mentions.patterns import Words
from dictate.mentions.tense.chains import like_a_noun
from dictate.mentions.tense.conditions import is_advice, is_conditional
from dictate.mentions.tense.nouns import noun_of_work
from dictate.mentions.tense.plain_forms import has_lost_ending, is_bare
from dictate.mentions.tense.plans import is_framed, list_of
from dictate.mentions.tense.reported import is_reported
from dictate.mentions.tense.talk import Talk
from dictate.mentions.tense.verbs import verb_of_work
from dictate.mentions.tense.vocabulary import Status
from dictate.mentions.tense.whose_doing import is_ours


class Scopes(Talk):
    """What became of the work of a narration; places are word indices, ends exclusive."""

    def __init__(self, words: Words) -> None:
        super().__init__(words)
        self._memo: dict[int, Status | None] = {}

    def verb(self, i: int) -> Status | None:
        """Return what became of the work that the verb at word i names."""
        if i in self._memo:
            return self._memo[i]
        self._memo[i] = None  # a chain that comes back to itself ends here
        self._memo[i] = status = verb_of_work(self, i)
        return status

    def noun(self, start: int, end: int) -> Status | None:
        """Return what became of work named without a verb ("new drier", "caps on", "no brazing today")."""
        return noun_of_work(self, start, end)

    def ours(self, i: int) -> bool:
        """Tell whether the work at word i is this technician's, on this job."""
        return is_ours(self, i)

    def reported(self, start: int, i: int) -> bool:
        """Tell whether somebody else's account runs from `start` up to word i, or stands behind it."""
        return is_reported(self, start, i)

    def conditional(self, i: int) -> bool:
        """Tell whether the clause of word i is a condition, or comes only when something happens."""
        return is_conditional(self, i)

    def advised(self, i: int) -> bool:
        """Tell whether the words before word i give somebody advice."""
        return is_advice(self, i)

    def framed(self, i: int) -> bool:
        """Tell whether word i stands in a plan that its sentence opens with ("Tomorrow: braze, charge")."""
        return is_framed(self, i)

    def list_of(self, number: int) -> tuple[int, int, Status] | None:
        """Return the words of a list of work in a sentence, and what its heading says of it."""
        return list_of(self, number)

    def bare(self, i: int) -> bool:
        """Tell whether the verb at word i is a plain form that nothing governs: it may be a noun as well."""
        return is_bare(self, i)

    def like_a_noun(self, i: int, start: int) -> bool:
        """Tell whether a plain form at word i of a sentence is a noun ("the charge", "a leak check")."""
        return like_a_noun(self, i, start)

    def ending_lost(self, i: int) -> bool:
        """Tell whether a plain form that opens a sentence is a past whose ending was not heard."""
        return has_lost_ending(self, i)


def scopes_of(words: Words) -> Scopes:
    """Return the scopes of these words; made once and kept with the narration."""
    found = words.narration.found.get("scopes")
    if not isinstance(found, Scopes):
        found = words.narration.found["scopes"] = Scopes(words)
    return found
