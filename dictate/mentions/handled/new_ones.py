"""Other ways to tell of a new part: "the new one draws two", "it got a new motor", "needs a compressor"."""

from __future__ import annotations

from dictate.mentions.handled.doing import Handled, handled_parts
from dictate.mentions.handled.objects import objects_behind
from dictate.mentions.handled.referents import part_meant, put_in_last
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.under_test import under_test
from dictate.mentions.handled.vocabulary import part_words
from dictate.mentions.patterns import NUMBER_WORDS
from dictate.vocabulary.load import word_set


def new_one(talk: Talk, i: int) -> Handled | None:
    """Read "new one's thirty, reads 30.4", "the new one draws two": it was put in."""
    start, end = talk.scopes.sentence(i)
    if talk.words[i] == "replacement":
        return replacement_works(talk, i, start, end)
    if talk.words[i + 1 : i + 2] not in (("one",), ("ones",)) or i + 2 >= end:
        return None
    before = talk.words[i - 1] if i > start else ""
    counted = before in NUMBER_WORDS or before.isdigit() or before == "both"
    if (before in ("the", "a") or counted) and i - 1 > start:
        before = talk.words[i - 2]
    elif before == "the":
        before = ""
    if talk.words[i - 3 : i - 1] == ("so", "is"):
        return new_one_like_old(talk, i)
    if before not in ("", ",", "and", "so", "but", "then", ";", ":", "-", "enough", "now", "yes", "yeah"):
        return new_one_beside_old(talk, i, before)
    after = talk.words[i + 2 : min(end, i + 5)]
    if after[0] == ",":
        good = any(
            talk.words[k] in word_set("tells_of_new_one")
            or (
                talk.scopes.kind(k) == "past"
                and talk.scopes.forms[talk.words[k]].verb in word_set("puts_new_one_in")
            )
            for k in range(i + 3, min(end, i + 14))
        ) or (
            talk.words[i + 3 : i + 5] == ("part", "number")
            and not any(w in ("order", "ordered", "coming", "friday", "tomorrow") for w in talk.words[i:end])
        )
    elif after[0] in ("'s", "is", "are"):
        good = len(after) > 1 and (
            after[1] in NUMBER_WORDS or after[1][0].isdigit() or after[1] in word_set("new_one_stands")
        )
        good = (
            good
            and not put_off(talk, i, end)
            and "dollars" not in talk.words[i:end]
            and "order" not in talk.words[i:end]
        )
    elif after[0] == "on":
        good = after[1:2] in ((), (".",), (",",), ("and",), ("now",), ("there",)) and not put_off(
            talk, i, end
        )
    elif after[0] in ("got", "was") and talk.scopes.kind(i + 3) == "past":
        put_in = after[2:3] in (("in",), ("on",)) or after[1] in word_set("fitted_words")
        good = put_in and not put_off(talk, i, end)
    elif after[0] in ("go", "goes", "going"):
        good = after[1:2] in (("in",), ("on",)) and not put_off(talk, i, end)
    elif after[:2] in (("of", "those"), ("of", "them"), ("of", "these"), ("of", "that")):
        good = not put_off(talk, start, end)
    else:
        does = talk.scopes.kind(i + 2) in ("third", "past") and after[0] not in word_set("new_one_elsewhere")
        measured = (after[0] in NUMBER_WORDS or after[0][0].isdigit()) and not any(
            w in word_set("money") for w in talk.words[i:end]
        )  # "new one forty five point six and five"
        known = after[0] in word_set("tells_of_new_one") or after[0] in word_set("goes_in_by_itself") - {
            "goes"
        }
        good = (does or measured or known) and not put_off(talk, i, end)
    if not good or talk.scopes.framed(i) or not talk.scopes.ours(i) or talk.scopes.conditional(i):
        return None
    thing = put_in_last(talk, i) or part_meant(talk, i, "replaced")
    if thing is not None and thing.name in ("terminal", "wire"):
        thing = None  # "points burnt to nothing. New one drops on the same rail"
    if thing is None and (after[0] in word_set("goes_in_by_itself") or _fixed_in(talk, i + 2)):
        thing = under_test(talk, i, i + 3)  # "Four bolts. Heavy. ... New one drops in", "new one sweated in"
    if thing is None or thing.name in ("terminal", "wire"):
        return None
    things = [thing]
    for k in range(i + 2, end - 3):
        # "a new one of those, and the overload with it"
        other = talk.thing_from(k + 2) if talk.words[k : k + 2] == ("and", "the") else None
        if other is not None and talk.words[other.end : other.end + 2] in (("with", "it"), ("as", "well")):
            things.append(other)
    return Handled("replaced", "done", things, i, i + 2, None, True, pronoun=True)


def _fixed_in(talk: Talk, k: int) -> bool:
    """Tell whether word k fixes a part in its place: "brazed in", "bolted on"."""
    fixes = talk.words[k] in part_words("brazed_in") or talk.words[k] in word_set("fixed_in_place")
    return fixes and talk.words[k + 1 : k + 2] in (("in",), ("on",), ("up",))


def replacement_works(talk: Talk, i: int, start: int, end: int) -> Handled | None:
    """Read "the replacement pulls half an amp"."""
    if i == start or talk.words[i - 1] != "the" or i + 1 >= end:
        return None
    does = talk.words[i + 1] in word_set("tells_of_new_one") or talk.scopes.kind(i + 1) == "third"
    if talk.words[i + 1] in ("is", "'s") and talk.words[i + 2] in word_set("new_one_stands"):
        does = not put_off(talk, i, end)
        i += 1
    if not does or talk.words[i + 1] in word_set("new_one_elsewhere") or put_off(talk, i, end):
        return None
    if talk.scopes.framed(i) or not talk.scopes.ours(i) or talk.scopes.conditional(i):
        return None
    thing = part_meant(talk, i, "replaced")
    return None if thing is None else Handled("replaced", "done", [thing], i, i + 2, None, True, pronoun=True)


def put_off(talk: Talk, start: int, end: int) -> bool:
    """Tell whether the words speak of a part that is still to come."""
    return any(w in word_set("part_to_come") for w in talk.words[start:end])


def new_one_beside_old(talk: Talk, i: int, before: str) -> Handled | None:
    """Read "cut the old valve out, wet rag round the new one": the old one went, so the new one came."""
    start, end = talk.scopes.sentence(i)
    if before not in ("round", "around", "on", "over", "to") or put_off(talk, start, end):
        return None
    if not any(h.action == "removed" and h.status == "done" and start <= h.start < i for h in talk.out):
        return None
    thing = part_meant(talk, i, "replaced")
    if thing is None or not talk.scopes.ours(i) or talk.scopes.framed(i):
        return None
    return Handled("replaced", "done", [thing], i, i + 2, None, True, pronoun=True)


def new_one_like_old(talk: Talk, i: int) -> Handled | None:
    """Read "the old one was a 25 amp and so is the new one"."""
    thing = part_meant(talk, i, "replaced")
    _, end = talk.scopes.sentence(i)
    if thing is None or not talk.scopes.ours(i) or talk.scopes.framed(i) or put_off(talk, i, end):
        return None
    return Handled("replaced", "done", [thing], i, i + 2, None, True, pronoun=True)


def got_new(talk: Talk, i: int, covered: list[tuple[int, int]]) -> Handled | None:
    """Read "it got a new motor", "gave it a new cap", "got the new valve in"."""
    start, end = talk.scopes.sentence(i)
    b = i - 1
    while b > start and talk.words[b] in (
        "a",
        "an",
        "the",
        "brand",
        "two",
        "three",
        "both",
        "its",
        "some",
        "myself",
        "ourselves",
        "me",
    ):
        b -= 1
    if b < start or (b == i - 1 and talk.words[b] != "got"):
        return None
    things, _, last, _, _ = objects_behind(talk, i, end, "replaced")
    things = handled_parts(things)
    gave_it = talk.words[b] == "it" and talk.words[b - 1] in ("gave", "give", "giving")
    if (
        not things
        and talk.words[i + 1 : i + 2] in (("one",), ("ones",))
        and (talk.words[b] in ("got", "gave") or gave_it)
    ):
        referent = part_meant(talk, b, "replaced")
        things, last = ([referent] if referent is not None else []), i + 2
    if not things or any(a <= things[0].start < z for a, z in covered):
        return None
    after = talk.words[last] if last < end else ""
    into = after == "in" and talk.words[last + 1 : last + 2] in (
        (),
        (".",),
        (",",),
        ("and",),
        ("it",),
        ("there",),
        ("place",),
        ("now",),
    )
    into = into or (
        after == "on"
        and talk.words[last + 1 : last + 2] in ((), (".",), (",",), ("it",), ("there",), ("now",))
    )
    word, verb = talk.words[b], b
    whose = talk.words[b - 1] if b > start else ""
    if word == "got" and (
        into
        or whose in ("it", "she", "which", "they", "both", "those")
        or (b > start and talk.thing_over(b - 1) is not None)
    ):
        pass
    elif word in ("it", "her", "him") and whose in ("gave", "give", "giving"):
        verb = b - 1
    elif word in ("'s", "is") and whose == "there" and into:
        verb = -1
    else:
        return None
    if word == "got" and whose in ("has", "'s", "have"):
        return None
    status = talk.scopes.verb(verb) if verb >= 0 else talk.scopes.noun(i, last)
    if status is None and whose in ("they", "both", "those") and things[0].start < i and things[0].plural:
        status = "done"  # "the blades were gone so they got new ones"
    if status is None:
        return None
    added = all(t.part in part_words("added") for t in things)
    return Handled(
        "installed" if added else "replaced", status, things, verb if verb >= 0 else i, last, None, True
    )


def got_one(talk: Talk) -> list[Handled]:
    """Read "fan two got a motor", "Tuesday it gets a new board"."""
    out: list[Handled] = []
    covered = [(h.start, h.end) for h in talk.out]
    for i, word in enumerate(talk.words):
        if word == "in" and talk.words[i - 1] in ("'s", "they're") and (made := now_in(talk, i)) is not None:
            out.append(made)
            continue
        if word == "one" and (made := from_stock_went_in(talk, i)) is not None:
            out.append(made)
            continue
        if word in ("gave", "giving") and talk.words[i + 1 : i + 2] in (("it",), ("her",)):
            made = given_one(talk, i)
            if made is not None and not any(a <= i < b for a, b in covered):
                out.append(made)
            continue
        if word not in ("got", "gets") or any(a <= i < b for a, b in covered):
            continue
        start, end = talk.scopes.sentence(i)
        if talk.words[i + 1 : i + 2] not in (("a",), ("two",), ("both",), ("new",)) or i + 2 >= end:
            continue
        j = talk.scopes.skip_back(i - 1, start)
        while j > start and (
            talk.words[j] in NUMBER_WORDS or talk.words[j].isdigit() or talk.words[j] == "number"
        ):
            j -= 1
        named = j >= start and (talk.thing_over(j) is not None or talk.words[j] in ("fan", "heater", "door"))
        if j < start or not (named or talk.words[j] in ("it", "she")):
            continue
        things, _, last, _, _ = objects_behind(talk, i + 1, end, "replaced")
        if any(w in word_set("failed") for w in talk.words[i:last]):
            continue  # "it got a bad relay"
        things = [t for t in things if t.name not in part_words("no_part")]
        if not things or talk.words[last : last + 1] == ("of",) or talk.scopes.conditional(i):
            continue
        if word == "got":
            status = talk.scopes.verb(i)
            if status is None and talk.words[j] == "she" and not talk.scopes.framed(i):
                status = "done"  # "since she was open she got a drier too": the machine
        else:
            told = talk.words[start:i] + talk.words[last:end]
            status = "planned" if any(w in word_set("times_to_come") for w in told) else None
        if status is not None:
            out.append(Handled("replaced", status, things, i, last, None, True))
    return out


def given_one(talk: Talk, i: int) -> Handled | None:
    """Read "gave it a relay and a cap"."""
    if talk.words[i + 2 : i + 3] not in (("a",), ("an",), ("two",), ("both",)):
        return None
    _, end = talk.scopes.sentence(i)
    first = talk.thing_from(i + 3)
    if first is None:
        return None
    things, _, last, _, _ = objects_behind(talk, i + 2, end, "replaced")
    things = handled_parts(things)
    status = talk.scopes.verb(i)
    if (
        not things
        or status is None
        or talk.words[last : last + 1] not in ((".",), (",",), ("and",), ("off",))
    ):
        return None
    return Handled("replaced", status, things, i, last, None, True)


def from_stock_went_in(talk: Talk, i: int) -> Handled | None:
    """Read "relay burned up, one off the truck went on"."""
    if talk.words[i + 1 : i + 2] not in (("off",), ("from",), ("out",)):
        return None
    _, end = talk.scopes.sentence(i)
    k = next((k for k in range(i + 2, min(end - 1, i + 7)) if talk.words[k] == "went"), None)
    if k is None or talk.words[k + 1] not in ("in", "on") or talk.scopes.conditional(i):
        return None
    if not any(w in word_set("own_stock") for w in talk.words[i:k]) or not talk.scopes.ours(i):
        return None
    thing = part_meant(talk, i, "replaced")
    return None if thing is None else Handled("replaced", "done", [thing], i, k + 2, None, True, pronoun=True)


def now_in(talk: Talk, i: int) -> Handled | None:
    """Read "the belt was glazed, I had one on the truck, it's in"."""
    start, end = talk.scopes.sentence(i)
    if talk.words[i - 2] != "it" and talk.words[i - 1] != "they're":
        return None
    if i + 1 < end and talk.words[i + 1] not in (".", ",", "now", "and"):
        return None
    told = talk.words[start:i]
    if not any(w in word_set("own_stock") or w in ("spare", "new", "replacement") for w in told):
        return None
    thing = part_meant(talk, i, "replaced")
    if thing is None or put_off(talk, start, end) or not talk.scopes.ours(i) or talk.scopes.conditional(i):
        return None
    return Handled("replaced", "done", [thing], i - 2, i + 1, None, True, pronoun=True)


def called_new(talk: Talk, i: int) -> Handled | None:
    """Read "Contactor, new." in a list."""
    start, end = talk.scopes.sentence(i)
    last = i + 2 if talk.words[i - 1] == ":" and talk.words[i + 1 : i + 2] == ("one",) else i + 1
    if i - 2 < start or talk.words[i - 1] not in (",", ":"):
        return None
    if last < end and talk.words[last] not in (".", ","):
        return None
    thing = talk.thing_over(i - 2)
    if thing is None or thing.start != start or thing.end != i - 1 or thing.name in part_words("no_part"):
        return None
    status = talk.scopes.noun(i, i + 1)
    return Handled("replaced", status, [thing], thing.start, i + 1, None, True) if status else None


def part_needed(talk: Talk, i: int) -> Handled | None:
    """Read "needs a compressor, two driers and a contactor" as planned; a "new" one is read elsewhere."""
    start, end = talk.scopes.sentence(i)
    opener = talk.words[i + 1]
    if opener not in ("a", "an", "another", "both") and opener not in NUMBER_WORDS and not opener.isdigit():
        return None
    things, _, last, _, _ = objects_behind(talk, i + 1, end, "replaced")
    things = [t for t in things if t.name not in part_words("no_part")]
    if not things or "new" in talk.words[i:last]:
        return None
    before = talk.words[talk.scopes.skip_back(i - 1, start)] if i > start else ""
    if (
        before in ("didn't", "don't", "doesn't", "not", "you", "they", "won't", "no")
        or any(w in word_set("perhaps") for w in talk.words[max(start, i - 4) : i])
        or not talk.scopes.ours(i)
        or talk.scopes.conditional(i)
    ):
        return None
    return Handled("replaced", "planned", things, i, last, None, True)


def it_fitted(talk: Talk) -> list[Handled]:
    """Read "I had a universal one. Slid it on": "it" is the new one told of just before."""
    out: list[Handled] = []
    covered = [(h.start, h.end) for h in talk.out]
    for i, word in enumerate(talk.words):
        form = talk.scopes.forms.get(word)
        if form is None or form.kind != "past" or form.verb not in word_set("fits_it"):
            continue
        if talk.words[i + 1 : i + 2] not in (("it",), ("that",), ("them",), ("those",), ("one",)):
            continue
        beside = talk.words[i + 2 : i + 4]
        if not any(w in ("in", "on", "onto", "into", "over") for w in beside) or "back" in beside:
            continue
        if any(a <= i < b for a, b in covered) or talk.scopes.verb(i) != "done":
            continue
        first = talk.w.sentences[max(0, talk.w.sentence_of[i] - 2)][0]
        told = talk.words[first:i]
        new = any(
            told[k] in word_set("not_the_old_one") and told[k + 1] in ("one", "ones")
            for k in range(len(told) - 1)
        )
        if not new and not any(told[k : k + 3] == ("one", "on", "the") for k in range(len(told) - 2)):
            continue
        thing = part_meant(talk, i, "replaced")
        if thing is not None:
            out.append(Handled("replaced", "done", [thing], i, i + 3, i, True, pronoun=True))
    return out
