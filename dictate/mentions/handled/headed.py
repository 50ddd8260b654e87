"""Parts that are only named in a list of work that is still to come, or was left undone.

"Next trip: evaporator fan motor, drier."  "Not done: the door gasket, washing the condenser."
"Declined by the owner: new door gasket, coil cleaning."
"""

from __future__ import annotations

from dictate.mentions.handled.doing import Handled, handled_parts
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import DETERMINERS, part_words
from dictate.mentions.patterns import NUMBER_WORDS
from dictate.mentions.tense import Status
from dictate.vocabulary.load import word_set

_STARTS = frozenset((",", ".", ";", ":", "-", "and", "or", "is", "are", "then"))


def headed(talk: Talk) -> list[Handled]:
    """Return the parts that stand alone in the lists below a heading, with what it says of them."""
    out: list[Handled] = []
    covered = {(t.name, h.status) for h in talk.out for t in h.things}
    for number, (_start, end) in enumerate(talk.w.sentences):
        listed = talk.scopes.list_of(number)
        if listed is None:
            continue
        head, last, status = listed
        k = head
        while k < min(last, end):
            if k > head and talk.words[k - 1] not in _STARTS:
                k += 1
                continue
            made = _item(talk, k, end, status)
            if made is None:
                k += 1
                continue
            if not any((t.name, made.status) in covered for t in made.things):
                out.append(made)
                covered |= {(t.name, made.status) for t in made.things}
            k = made.end
    return out


def _item(talk: Talk, k: int, end: int, status: Status) -> Handled | None:
    """Read one entry of a list: "a new drier", "door gasket", "coil cleaning", "the stat's setting"."""
    first, new = k, False
    while k < end and (
        talk.words[k] in DETERMINERS
        or talk.words[k] in NUMBER_WORDS
        or talk.words[k] in word_set("before_part_in_place") | {"new", "a", "an", "fresh"}
    ):
        new = new or talk.words[k] in ("new", "fresh")
        k += 1
    washing = k < end and talk.words[k] in word_set("cleaning_named")
    if washing:
        k += 1 + (talk.words[k + 1 : k + 2] in (("out",), ("down",), ("of",)))
        k += talk.words[k : k + 1] != () and talk.words[k] in DETERMINERS
    thing = talk.thing_from(k)
    if thing is None or thing.modifier or not handled_parts([thing]):
        return None
    if thing.name in part_words("bits_of_a_repair"):
        return None
    last = thing.end
    if last < end and talk.words[last] in word_set("cleaning_named"):
        washing, last = True, last + 1
    if last < end and talk.words[last] in ("replacement", "change", "swap", "changeout", "exchange"):
        new, last = True, last + 1
    if last < end and talk.words[last] not in word_set("behind_a_listed_part"):
        return None
    action = "replaced"
    if thing.generic and not (washing or new):
        return None  # "the cap", "the motor": of which machine part is told elsewhere
    if washing:
        action = "cleaned"
    elif not new and thing.name in word_set("washed_parts"):
        if status == "planned":
            return None  # "the coil": to be washed or to be replaced?
        action = "cleaned"
    elif not new and status == "not_done" and any(w in thing.name for w in word_set("only_set")):
        action = "adjusted"
    return Handled(action, status, [thing], first, last, None, new or action == "replaced")
