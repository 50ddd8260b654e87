"""An amount in the form of the record, with the refrigerant named with it."""

from __future__ import annotations

from typing import cast

from dictate.mentions.movements.mass import Direction, Mass, MassUnit
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.triggers_before import REACH
from dictate.mentions.refrigerants.conversions import changed_today, in_doubt
from dictate.mentions.refrigerants.named import RefrigerantName
from dictate.mentions.tense import ENDING_LOST
from dictate.record.visit import Movement
from dictate.vocabulary.load import word_set


def movement_of(talk: Talk, a: Mass) -> Movement:
    """Return the record's movement."""
    start, end = talk.w.span(a.start, a.end)
    name = refrigerant_of(talk, a)
    unsure = []
    if name is None and (new := changed_today(talk.narration, talk.names)) is not None:
        unsure = [f"the machine was changed to {new.name}, and no refrigerant was said with this amount"]
        name = new if a.kind == "charged" else None
    elif name is None and in_doubt(talk.narration, talk.names):
        unsure = ["a change of refrigerant is spoken of, and none was said with this amount"]
    s, e = start, end
    if a.trigger < a.start and a.start - a.trigger <= REACH:
        s = talk.w.tokens[a.trigger]
    lost = [ENDING_LOST] if talk.scopes.ending_lost(a.trigger) else []
    leading = [h for h in talk.hits if h.start == a.trigger and h.label == a.kind]
    if leading and all(h.verb is not None and not talk.reports(h.verb) for h in leading):
        lost = [f"{talk.words[a.trigger]!r} was not said as done: it may be an instruction"]
    return Movement(
        direction=cast(Direction, a.kind),
        refrigerant=name.name if name else None,
        value=float(f"{a.value:.9g}"),
        unit=cast(MassUnit, a.unit),
        at=talk.narration.at(s, e),
        heard=talk.narration.heard(s, e),
        review=list(dict.fromkeys([*a.review, *lost, *unsure, *(name.reasons if name else [])])),
        candidates=a.candidates,
        retracted=a.retracted,
        also_said=a.also,
    )


def refrigerant_of(talk: Talk, a: Mass) -> RefrigerantName | None:
    """Return the refrigerant named with the amount: behind it, or between the verb and it."""
    first = talk.w.tokens[a.trigger] if a.trigger < a.start else talk.w.tokens[a.start]
    _, s1 = talk.w.sentences[talk.w.sentence_of[a.end - 1]]
    limit = talk.w.tokens[min(s1, a.end + 9) - 1] + 1
    after = [n for n in talk.names if n.start >= talk.w.tokens[a.end - 1] and n.start < limit]
    inside = [n for n in talk.names if first <= n.start < talk.w.tokens[a.start]]
    if not inside and a.trigger < a.start:
        # "took the old 22 out": the verb itself may have the name in it
        verbs = [h for h in talk.hits if h.label == a.kind and h.end <= a.start and a.start - h.end <= 2]
        inside = [
            n for h in verbs for n in talk.names if talk.w.tokens[h.start] <= n.start < talk.w.tokens[a.start]
        ]
    # nothing but small words between the amount and the name behind it, or no other amount
    for n in after:
        place = talk.w.word_of_token(n.start)
        between = talk.words[a.end : place]

        if inside and any(w in (",", "and", "then", ";") for w in between):
            break
        if any(
            a.end <= h.start < place
            and h.label in ("recovered", "charged")
            and h.verb is not None
            and talk.words[h.start] not in ("recovered", "charged", "added")
            for h in talk.hits
        ):
            break  # "six pounds, and put 407C in"
        alone = not any(a.end <= x.start < place for x in talk.masses)
        if alone and not any(w in ("instead", "not", "label", "plate") for w in between):
            return n
    if inside:
        return inside[-1]
    # "the 404 came out at eleven pounds"
    lead = min(a.trigger, a.start)
    s0, _ = talk.scopes.sentence(lead)
    low, high = talk.w.tokens[s0], talk.w.tokens[lead] if lead < len(talk.words) else 10**9
    before = [n for n in talk.names if low <= n.start < high]
    if before and lead - talk.w.word_of_token(before[-1].end) <= 2:
        gap = talk.words[talk.w.word_of_token(before[-1].end) : lead]
        if not any(w in (",", "and", ".") for w in gap) and not any(
            s0 <= x.start < lead for x in talk.masses if x is not a
        ):
            return before[-1]
    for n in reversed(before):
        k = talk.w.word_of_token(n.start)
        if a.kind == "charged" and talk.words[k - 1] == "to" and word_set("converts") & set(talk.words[s0:k]):
            return n  # "converted to 407C, seventeen pounds in"
    return None
