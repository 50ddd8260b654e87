"""Values that a later sentence names again in order to put them right.

    "the 13 bar head from before was 11 bar"         the number again, and what it was
    "that 230 I read at the start, it's 238"         ... with a verb of saying behind it
    "minus thirty eight is really minus forty one"   ... with a word that says what is so
    "swap the three nine five for three nine nine"   ... with what is to be done with it
    "cans were actually 62"                          what was measured again, without the number
    "scratch the locked rotor I read you, that's 77"

A number that stands with "the" or "that", or with "I said", and that was said before of something, points
back at it. What counts is whether the words say that it was wrong: "the 68 is 74 now" is a change, and "the
119 at the plug sags to 111" is another moment, and neither takes anything back.
"""

from __future__ import annotations

from dictate.mentions.corrections.measured_again import MeasuredAgain
from dictate.mentions.corrections.named_again import again_words
from dictate.mentions.corrections.numbers_again import NumbersAgain


class Restated(NumbersAgain, MeasuredAgain):
    """Takes back what is named again and put right, sentence by sentence."""

    def run(self) -> None:
        """Take back, sentence by sentence."""
        for i, (a, b) in enumerate(self.n.sentences):
            here = self.between(a, b)
            if not here or not self._telling(a, b, i):
                continue
            done: set[int] = set()
            for x in here:
                if x.start in done or self.back.handled(x.start, x.end):
                    continue
                pair = self._by_number(x, a, b)
                if pair is None and self._of_other(x, a, b):
                    break
                if pair is not None:
                    done.update(p.start for p in pair)
            for y in here:
                if y.start in done or self.back.handled(y.start, y.end):
                    continue
                if not self._by_place(y, a, b):
                    self._by_name(y, a)

    def _telling(self, a: int, b: int, i: int) -> bool:
        """Tell whether a sentence holds any word that points back or puts right: most hold none."""
        if i == 0:
            return False
        said = set(self.words[a:b])
        return bool(said & again_words("hints"))


__all__ = ["Restated"]
