"""What a value is by all the words around it, where that is another thing than what was taken.

    settle_by_all_words(narration, mentions, units)

The rules of the readers look at what stands beside a value; the text encoder (`second_opinion.told`) reads
the talk as a whole. Where it is nearly certain, and next to certain that what was taken is wrong, it is
followed:

    not_taken   what was read though no rule took it; it keeps a reason to look at it
    states      the same of what a meter showed without a number; what sounds like other talk gets a reason
    where    the component and the point a value was read on, and whether before or after the work
    what     no reading of now but a target or the like, or the other way round; no value at all; another
             quantity of a bare number. Each of these leaves a reason to look at it, and the other reading of
             the words as a candidate.
    chains   the part and the side of volts of a control circuit that is walked along part by part
    named_nowhere   a motor that nobody named, where the talk names one fan only; windings of a contactor
    supplies  volts and windings of a power supply that feeds a blower or fans
    legs_to_ground  the legs of a supply told to the ground behind its pairs
    climate_roles  warmth and humidity that are wished for together
    hardly_of  values on parts that they can hardly be of
    sided_fans  plain fans of a cabinet whose fans are told by their side
    elements  heating elements of a machine that boils or heats water, no defrost heaters
    drives   what is read at a drive that feeds a motor
    kilohms  the thousands of a probe that was told without a unit beside others in kilohms

The thresholds were chosen on narrations that neither the encoder nor the rules had seen.
"""

from __future__ import annotations

from dictate.mentions.by_all_words.chains import settle_chain
from dictate.mentions.by_all_words.climate_roles import settle_climate_roles
from dictate.mentions.by_all_words.drives import settle_drives
from dictate.mentions.by_all_words.elements import settle_elements
from dictate.mentions.by_all_words.hardly_of import settle_hardly_of
from dictate.mentions.by_all_words.kilohms import settle_kilohms
from dictate.mentions.by_all_words.legs_to_ground import settle_legs_to_ground
from dictate.mentions.by_all_words.named_nowhere import settle_named_nowhere, settle_windings
from dictate.mentions.by_all_words.not_taken import with_not_taken
from dictate.mentions.by_all_words.numbers import numbers_of
from dictate.mentions.by_all_words.sided_fans import settle_sided_fans
from dictate.mentions.by_all_words.states import doubt_states, with_states
from dictate.mentions.by_all_words.supplies import settle_supplies
from dictate.mentions.by_all_words.what import settle_what
from dictate.mentions.by_all_words.where import settle_where, stages_told
from dictate.mentions.narration import Narration
from dictate.mentions.units_system import UnitSystem
from dictate.record.mentions import Mentions


def settle_by_all_words(narration: Narration, mentions: Mentions, units: UnitSystem) -> None:
    """Put readings right in place where all the words around them leave no doubt."""
    mentions.readings = with_not_taken(narration, mentions, units)
    doubt_states(narration, mentions.readings)
    mentions.readings = with_states(narration, mentions)
    placed = numbers_of(narration, mentions.readings)
    settle_where(narration, mentions.readings, placed)
    settle_windings(narration, mentions.readings)
    settle_named_nowhere(narration, mentions.readings)
    settle_drives(narration, mentions.readings)
    settle_supplies(narration, mentions.readings)
    settle_sided_fans(narration, mentions.readings)
    settle_elements(narration, mentions.readings)
    settle_chain(narration, mentions.readings, placed)
    mentions.stages = stages_told(narration, mentions.readings, placed)
    mentions.readings = settle_what(narration, mentions.readings, placed, units)
    settle_hardly_of(narration, mentions.readings)
    settle_legs_to_ground(narration, mentions.readings)
    settle_climate_roles(narration, mentions.readings)
    settle_kilohms(mentions.readings)


__all__ = ["settle_by_all_words"]
