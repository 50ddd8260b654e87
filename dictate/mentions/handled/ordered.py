"""Parts that are ordered and still to come: "the gasket is on order", "ordered a fan motor"."""

from __future__ import annotations

from dictate.mentions.handled.doing import Handled, handled_parts
from dictate.mentions.handled.objects import objects_behind
from dictate.mentions.handled.referents import part_meant
from dictate.mentions.handled.subjects import subjects_before
from dictate.mentions.handled.talk import Talk
from dictate.mentions.patterns import NUMBER_WORDS
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set


def still_ordered(talk: Talk) -> list[Handled]:
    """Return the replacements that an order announces, of parts that were not put in in this narration."""
    if word_set("orders_a_part").isdisjoint(talk.words):
        return _to_be_brought(talk)
    put_in = {
        t.name
        for h in talk.out
        if h.action in ("replaced", "installed") and h.status in ("done", "planned")
        for t in h.things
    }
    out: list[Handled] = []
    for i, word in enumerate(talk.words):
        if word not in word_set("orders_a_part") or (word == "order" and not _is_an_order(talk, i)):
            continue
        start, end = talk.scopes.sentence(i)
        if talk.words[end - 1] == "?" or talk.scopes.conditional(i) or not talk.scopes.ours(i):
            continue
        around = talk.words[start:end]
        arrived = any(
            w in word_set("order_arrived") and around[k - 1 : k] != ("be",) for k, w in enumerate(around)
        )  # "it'll be here Wednesday" is still to come
        if arrived or any(
            w in ("not", "no", "didn't", "won't", "never", "don't", "out", "in")
            for w in talk.words[max(start, i - 2) : i]
            if word != "order" or w != "on"
        ):
            continue
        things = [t for t in _ordered(talk, i, start, end) if t.name not in put_in]
        if things:
            put_in |= {t.name for t in things}
            out.append(Handled("replaced", "planned", things, min(i, things[0].start), i + 1, None, True))
    return out + _to_be_brought(talk)


def _to_be_brought(talk: Talk) -> list[Handled]:
    """Read "the middle one I'll bring Thursday": a part that comes on a later day."""
    out: list[Handled] = []
    for i, word in enumerate(talk.words):
        if word not in ("i'll", "we'll") or talk.words[i + 1 : i + 2] not in _BRINGS:
            continue
        _, end = talk.scopes.sentence(i)
        if not any(w in word_set("times_to_come") for w in talk.words[i:end]):
            continue
        if not i or talk.words[i - 1] not in ("one", "ones", "other", "others", "rest"):
            continue
        thing = part_meant(talk, i, "replaced")
        if thing is not None and not thing.modifier:
            out.append(Handled("replaced", "planned", [thing], i - 1, i + 2, None, True, pronoun=True))
    return out


_BRINGS = (("bring",), ("fit",), ("get",), ("do",), ("put",), ("change",), ("replace",), ("swap",))


def _is_an_order(talk: Talk, i: int) -> bool:
    """Tell whether "order" is "on order" or the verb, and no "in order", "work order", "same order"."""
    return talk.words[i - 1] in ("on", "to", "must", "will", "i'll", "we'll", "gotta")


def _ordered(talk: Talk, i: int, start: int, end: int) -> list[Thing]:
    if talk.words[i - 1] == "on" or (
        talk.words[i] == "ordered" and talk.words[i + 1 : i + 2] in ((), (".",), (",",), ("and",), (";",))
    ):
        things, _, _ = subjects_before(talk, i - (talk.words[i - 1] == "on"), start)
        if not things:
            named = [t for t in talk.things if start <= t.start < i and not t.modifier]
            things = named[-1:]
        if not things:
            referent = part_meant(talk, i, "replaced")
            things = [referent] if referent is not None else []
        return handled_parts(things)
    if talk.words[i] == "waiting" and talk.words[i + 1 : i + 2] not in (("on",), ("for",)):
        return []
    first = i + 1 + (talk.words[i] == "waiting")
    things, _, _, pronoun, _ = objects_behind(talk, first, end, "replaced")
    counted = talk.words[first : first + 1]
    if not things and not pronoun and counted and counted[0] in NUMBER_WORDS:
        pronoun = talk.words[first + 1 : first + 2] in (
            (",",),
            (".",),
            ("of",),
            ("and",),
        )  # "ordered two, ..."
    if not things and pronoun:
        referent = part_meant(talk, i, "replaced")
        things = [referent] if referent is not None else []
    return handled_parts(things)
