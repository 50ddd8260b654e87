"""Amounts of refrigerant that may be wrong."""

from __future__ import annotations

from dictate.mentions.doubts.broken_numbers import goes_on_behind_a_stop, why_broken
from dictate.mentions.doubts.talk import LONGEST, STOPS, Talk, word_set
from dictate.mentions.movements.sounds_moved import doubted
from dictate.mentions.plausible import in_unit
from dictate.mentions.quantities import find_quantities
from dictate.mentions.second_opinion import told
from dictate.mentions.told_outright import is_moved_told_outright
from dictate.record.visit import Candidate, Movement
from dictate.vocabulary.load import table

_MASSES = frozenset(("lb", "oz", "g", "kg"))
_THEN = frozenset(("so", "then", "and"))
_LATER = 3
"""Sentences behind an amount in which it may still be corrected."""


def doubts_of_movement(talk: Talk, m: Movement) -> list[str]:
    """Return the doubts about an amount of refrigerant; candidates are added in place."""
    span = talk.span(m.at)
    if span is None or m.value is None or m.unit is None:
        return []
    start, end = span
    low, high = talk.n.sentences[talk.sentence_of[start]]
    words = talk.words
    out: list[str] = []
    pounds = in_unit(m.value, m.unit, "lb")
    limits = table("plausible")["moved"]
    large = any(x in talk.machines for x in limits["large"])
    if not limits["least"] <= pounds <= (limits["most_large"] if large else limits["most"]):
        out.append(f"{m.value:g} {m.unit} is unusual for an amount of refrigerant")
    if len(talk.plates) == 1 and not out:
        (plate,) = talk.plates
        portions = [o for o in talk.mentions.movements if o.direction == m.direction and o is not m]
        part = m.direction == "charged" and pounds < plate / 40 and not portions  # "then four ounces more"
        if pounds > limits["over_plate"] * plate or part:
            out.append(f"{m.value:g} {m.unit} does not fit the charge on the plate")
    numbers = [n for n in talk.numbers_in(start, end + LONGEST) if n.start < end]
    last = numbers[-1] if numbers else None
    after = words[end : min(high, end + 4)]
    if "oil" in after or "nitrogen" in after:
        out.append(f"{next(w for w in after if w in {'oil', 'nitrogen'})} is spoken of behind it")
    if last is not None and last.written and last.places == 1 and m.unit == "oz" and len(numbers) == 1:
        whole, rest = divmod(round(last.value * 10), 10)
        if rest and 1 <= whole <= limits["split_ounces"] and talk.damaged:
            why = f"may have been {whole} pounds {rest} ounces"
            out.append(why)
            m.candidates.append(Candidate(value=whole + rest / 16, unit="lb", heard=m.heard, why=why))
    broken = None
    if last is not None:
        broken = why_broken(talk.n, last) or goes_on_behind_a_stop(talk.n, last, with_unit=True)
    if broken is not None:
        out.append(broken[0])
        if broken[1] is not None:
            m.candidates.append(Candidate(value=broken[1], unit=m.unit, heard=m.heard, why=broken[0]))
    before = words[max(low, start - 5) : start]
    for i in range(len(before) - 1, -1, -1):
        if before[i] in {"so", "then"}:
            before = before[i + 1 :]  # "it was eight ounces short, so I put in eight ounces"
            break
    lead = words[start:end]
    cut = max((k + 1 for k, w in enumerate(before) if w in _THEN), default=0)  # "book wants eight, so I"
    planned = word_set("planned") & set(before[cut:] + ([] if m.retracted else lead[: max(0, len(lead) - 2)]))
    if planned and not {"what", "that"} & set(
        words[end : min(high, end + 5)]
    ):  # "wants two, that's what it got"
        out.append(f"{min(planned)!r} beside it: it may be planned or wanted, not moved")
    if not out and not m.review and not m.retracted:
        starts = [n.start for n in numbers]
        sounds = doubted(told(talk.n, "way"), starts, m.direction)
        if sounds and any(is_moved_told_outright(talk.n, t) for t in starts):
            sounds = None  # "plate says 28 ounces, she got 28 ounces"
        if sounds is not None:
            out.append(sounds)
    if not m.retracted:
        cue = _cue_near(talk, start, end)
        if cue is not None:
            out.append(cue)
        elif (later := _corrected_later(talk, m, end)) is not None:
            out.append(later)
        elif (opened := _next_opens(talk, end)) is not None:
            out.append(opened)
    return out


_OPENERS = frozenset(("wait", "scratch", "strike", "correction", "oops", "whoops", "sorry", "hang", "rather"))


def _next_opens(talk: Talk, end: int) -> str | None:
    """Doubt an amount whose next sentence begins with a word of correction."""
    number = talk.sentence_of[end - 1] + 1
    if number >= len(talk.n.sentences):
        return None
    first = talk.n.sentences[number][0]
    if talk.words[first] in _OPENERS or tuple(talk.words[first : first + 2]) in {
        ("no", "sorry"),
        ("no", "wait"),
    }:
        return f"{talk.n.heard(first, first + 1)!r} begins the next sentence: the amount may be taken back"
    return None


def _corrected_later(talk: Talk, m: Movement, end: int) -> str | None:
    """Doubt an amount that a later sentence seems to take back: "No, sorry, nine grams"."""
    here = talk.sentence_of[end - 1]
    for cue in talk.n.found["doubt cues"]:
        if cue.start < end or not 0 < talk.sentence_of[cue.start] - here <= _LATER:
            continue
        for mass in find_quantities(talk.n):
            if mass.unit in _MASSES and 0 <= mass.start - cue.end <= 3:
                if any(mass.start == s[0] for o in talk.mentions.movements if (s := talk.span(o.at))):
                    continue
                said = talk.n.heard(cue.start, mass.end)
                why = f"{said!r} was said after it and may correct it"
                m.candidates.append(Candidate(value=mass.value, unit=mass.unit, heard=said, why=why))
                return why
    return None


def _cue_near(talk: Talk, start: int, end: int) -> str | None:
    for cue in talk.n.found["doubt cues"]:
        if max(cue.start - end, start - cue.end) > 6:
            continue
        gap = talk.words[end : cue.start] if cue.start >= end else talk.words[cue.end : start]
        if len(gap) > (6 if cue.start >= end else 4) or STOPS & set(gap[1:]):
            continue
        at = cue.start - (talk.words[cue.start - 1] in {",", "-"})
        if (cue.end <= start or start < cue.start < end) and any(
            n.end in {at, cue.start} for n in talk.numbers_in(cue.start - LONGEST, cue.start)
        ):
            continue  # "one point one, no wait, one point three kilos": the number before it was taken back
        if not talk.numbers_between(end, cue.start):
            return f"{talk.n.heard(cue.start, cue.end)!r} was said beside it and nothing was taken back"
    return None
