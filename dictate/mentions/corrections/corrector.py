"""Runs the shapes of correction over the readings of a visit, in an order where each can rest on the last."""

from __future__ import annotations

from dictate.mentions.corrections.adopted import Adopts
from dictate.mentions.corrections.asked import Asked
from dictate.mentions.corrections.by_name import ByName
from dictate.mentions.corrections.denials import Denials
from dictate.mentions.corrections.excused import Excused
from dictate.mentions.corrections.neighbours import Neighbours
from dictate.mentions.corrections.of_before import of_before
from dictate.mentions.corrections.offsets import Offsets
from dictate.mentions.corrections.relabelled import Relabels
from dictate.mentions.corrections.restated import Restated
from dictate.mentions.corrections.said_anew import SaidAnew
from dictate.mentions.corrections.taken_for import TakenFor
from dictate.mentions.corrections.told_twice import once_each
from dictate.mentions.corrections.units_again import UnitsAgain
from dictate.mentions.corrections.units_and_places import UnitsAndPlaces
from dictate.mentions.narration import Narration
from dictate.mentions.whose.taken import Found
from dictate.record.visit import Reading


class _Corrector(
    Asked,
    Adopts,
    Offsets,
    Neighbours,
    UnitsAndPlaces,
    UnitsAgain,
    Denials,
    ByName,
    Relabels,
    TakenFor,
    SaidAnew,
    Excused,
):
    """Every shape of correction, each from its own module."""

    def run(self) -> list[Reading]:
        """Return the readings in the order of the words, corrections applied."""
        self.back.moves()
        self.back.no_good()
        self.offsets()
        self._owned_anew()
        self._of_the_tool()
        self._meant_behind()
        self._taken_for()
        Restated(self.n, self.back, self._of_number).run()
        self.back.recalls()
        self.back.by_number()
        self._by_name()
        self._excused()
        self.taken += self.back.swaps()
        self.taken.sort(key=lambda t: t.start)
        self.back.sets()
        self.cues = [c for c in self.cues if not self.back.handled(c.start, c.end)]
        self._other_side()
        self._adopt()
        self._adopt_before()
        self._adopt_behind()
        self._relabelled()
        self._reckoned_anew()
        self._should_read()
        self._asked()
        self._said_at_once()
        self._said_anew()
        self._neighbours()
        self._units_again()
        self._units_and_places()
        self._denials()
        self.back.denials()
        self._that_is_the_plate()
        self._hesitations()
        self.back.differences()
        self.n.found["corrections done"] = self.back.done
        self.taken.sort(key=lambda t: t.start)
        of_before(self.taken)
        told = once_each(self.taken, self.n)
        return [t.reading for t in told if not t.movement]


def correct(narration: Narration, found: Found) -> list[Reading]:
    """Return the readings in the order of the words, corrections applied, what was taken back marked."""
    return _Corrector(narration, found).run()
