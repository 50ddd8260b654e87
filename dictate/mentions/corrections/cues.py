"""The short words that correct at once ("no wait", "make that", "sorry"), and the state of one run."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from dictate.mentions.corrections.back import Back
from dictate.mentions.corrections.cue_senses import other_sense
from dictate.mentions.corrections.mistakes import find_mistakes
from dictate.mentions.narration import Narration
from dictate.mentions.phrases import Phrase, Phrases
from dictate.mentions.roles.cues import find_correction_cues
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import Found, Taken
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import table

SMALL = word_list("self_correction_small")
_STRONG = word_list("self_correction_strong")
_MAKERS = word_list("self_correction_makers")


_ENDS = (["."], ["..."], ["…"])
_SAYING = (["say"], ["write"], ["put"], ["read"], ["give"], ["tell"])


@cache
def _behind() -> Phrases:
    return Phrases({"behind": table("corrections")["behind"]["said"]})


def pause_in_a_list(words: list[str], start: int, end: int) -> bool:
    """Tell whether words of waiting stand behind "and": the speaker goes on with his list."""
    back = [w for w in words[max(0, start - 2) : start] if w != ","]
    said = " ".join(words[start:end])
    return back[-1:] == ["and"] and said in table("corrections")["pauses"]["said"]


@dataclass(slots=True)
class Cue:
    """Words at the tokens [start, end) that put right; `strong` when they do nothing else."""

    start: int
    end: int
    strong: bool
    only_clause: bool = False
    """True for a clause that may tell of a misreading and may tell of something else."""
    told: bool = False
    """True for words that tell how a value came to be misread."""


class Corrections:
    """Holds the values of the visit, the cues that put some of them right, and what every shape needs."""

    def __init__(self, narration: Narration, found: Found) -> None:
        self.n = narration
        self.words = narration.lowers
        self.taken = found.readings
        self.metric = found.units.name == "metric"
        # "correction on the head pressure" names what it corrects: that is for `_by_name`.
        self.cues = [
            self._cue(p)
            for p in find_correction_cues(narration)
            if (
                self.words[p.end : p.end + 1] not in (["on"], ["to"], ["about"], ["for"])
                or self.words[p.end + 1 : p.end + 2] in _SAYING
            )
            and not (
                self.words[p.start] in {"scratch", "strike", "correct"}
                and self.words[p.end : p.end + 1] == ["the"]
            )
            # "so I make that seven kelvin across it" reckons, it does not correct
            and not (self.words[p.start] == "make" and _MAKERS & set(self.words[p.start - 1 : p.start]))
            and not self._pause(p)
            and not other_sense(narration, p.start, p.end)
        ]
        self.mistakes = find_mistakes(narration)
        self.cues += [Cue(m.start, m.end, True, not m.clear, True) for m in self.mistakes if m.cue]
        self.cues.sort(key=lambda c: (c.start, -c.end))
        self.behind = {p.start: p.end for p in _behind().find(narration)}
        self.behind_used: set[int] = set()
        """Where a cue begins that stood behind a repair, and puts nothing else right."""
        self.loose: list[Value] = []
        self.back = Back(narration, self.taken)

    def _pause(self, p: Phrase) -> bool:
        """Tell whether words only gain time ("8.1 and, hang on, 8.2"), or tell of waiting ("Wait.")."""
        lone = self.words[p.start : p.end] == ["wait"] and self.words[p.end : p.end + 1] in _ENDS
        if lone and (not p.start or self.words[p.start - 1 : p.start] in _ENDS):
            return True  # hands are at work, and what is looked at needs a while
        return pause_in_a_list(self.words, p.start, p.end)

    def _cue(self, p: Phrase) -> Cue:
        text = " ".join(self.words[p.start : p.end]).replace(" 's", "'s")
        return Cue(p.start, p.end, text in _STRONG)

    def _link(self, old: Taken, new: Taken) -> None:
        # Ids come later; until then the words say which value was meant.
        new.reading.retracts = old.reading.heard or None

    def _factor(self, taken: Taken) -> float:
        q = taken.value.quantity
        if q is None:
            return 1.0
        return next((f for u, f in q.means if u == taken.reading.unit), 1.0)

    def _misled(self, old: Taken, new: Taken) -> bool:
        """Tell whether a place that stands between two values is what was read by mistake."""
        return any(old.end <= m.start < new.start for m in self.mistakes)

    def _opens_sentence(self, cue: Cue) -> bool:
        return cue.start == 0 or self.words[cue.start - 1] in word_list("self_correction_opens_sentence")
