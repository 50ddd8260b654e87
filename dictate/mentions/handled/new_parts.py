"""New parts told of without a verb of handling: "new timer in", "and a new drier"."""

from __future__ import annotations

from dictate.mentions.handled.doing import Handled, handled_parts
from dictate.mentions.handled.new_ones import called_new, got_new, new_one, part_needed, put_off
from dictate.mentions.handled.objects import objects_behind
from dictate.mentions.handled.referents import part_meant
from dictate.mentions.handled.rows import is_mark
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import part_words
from dictate.mentions.patterns import NUMBER_WORDS
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set

_LEADS = frozenset(("need", "needs", "needing", "fresh", "another", "spare", "new", "replacement"))


def is_covered(covered: list[tuple[int, int]], i: int) -> bool:
    """Tell whether word i was read already."""
    return any(a <= i < b for a, b in covered)


def without_verb(talk: Talk) -> list[Handled]:
    """Read "new timer in", "and a new drier", "new coil off the truck"."""
    out: list[Handled] = []
    covered = [(h.start, h.end) for h in talk.out]
    gestures = [(h.start, h.end) for h in talk.out if h.verb is None]
    for i in talk.w.starting(_LEADS):
        word = talk.words[i]
        if gestures and is_covered(gestures, i):
            continue
        if word in ("need", "needs", "needing") and i + 2 < len(talk.words):
            made = part_needed(talk, i)
            if made is not None and not any(a <= made.things[0].start < b for a, b in covered):
                out.append(made)
            continue
        if word in ("fresh", "another", "spare") and talk.words[i + 1 : i + 2] in (("one",), ("ones",)):
            made = got_new(talk, i, covered)
            if made is None and not any(a <= i < b for a, b in covered):
                made = one_fitted(talk, i)
            if made is not None:
                out.append(made)
                covered.append((made.start, made.end))
            continue
        if word not in ("new", "replacement"):
            continue
        made = called_new(talk, i) or new_one(talk, i) or got_new(talk, i, covered)
        if made is not None:
            out.append(made)
            covered.append((made.start, made.end))
            continue
        made = one_fitted(talk, i)
        if made is not None:
            out.append(made)
            covered.append((made.start, made.end))
            continue
        if talk.words[i + 1 : i + 3] in (("one", "in"), ("ones", "in")) and (
            talk.w.opens(i) or talk.words[i - 1] == ","
        ):
            removed = part_meant(talk, i, "replaced")
            if not word_set("own_stock").isdisjoint(talk.words[i + 3 : i + 5]):
                continue  # "new one in the van"
            if removed is not None and talk.scopes.noun(i, i + 3) == "done":
                out.append(Handled("replaced", "done", [removed], i, i + 3, None, True, pronoun=True))
            continue
        if any(a <= i < b for a, b in covered):
            continue
        start, end = talk.scopes.sentence(i)
        before = talk.words[i - 1] if i > start else ""
        first = i
        if before in ("a", "an", "brand", "one", "two", "three", "both"):
            first = i - 1
            before = talk.words[i - 2] if i - 1 > start else ""
        needed = before in ("need", "needs", "needing", "need's", "wants")
        fitting = verb_of_fitting(talk, first, start)
        the_new = before == "the" and (talk.w.opens(i) or talk.words[i - 2] in (",", ";", "and", "so"))
        went_in = any(talk.words[k : k + 2] == ("went", "in") for k in range(i + 1, min(end, i + 8)))
        if (
            not needed
            and not went_in
            and fitting is None
            and not the_new
            and before not in word_set("before_new_part")
            and not (before in ("came", "went") and first < i)
            and not before.isdigit()
        ):
            continue
        things, _, last, pronoun, np = objects_behind(talk, i, end, "replaced")
        hose = bool(things) and things[0].name in ("hose", "suction hose")
        if not (hose and (made_up(talk, last, end) or "made" in talk.words[max(start, i - 4) : i])):
            things = handled_parts(things)
        if fitting is not None and not is_covered(covered, fitting):
            made = put_in_beside(talk, fitting, things, last, pronoun, np)
            if made is not None:
                out.append(made)
                covered.append((made.start, made.end))
                continue
        if not things and np and first == i and word == "new":
            made = part_of_no_list(talk, i, np, end)
            if made is not None:
                out.append(made)
                continue
        if not things:
            continue
        if talk.words[last : last + 2] in (("in", "my"), ("on", "my")):
            continue  # "a new battery in my meter"
        if talk.words[last : last + 3] in (("of", "the", "same"), ("with", "the", "same")):
            last = min(end - 1, last + 4)
        told = talk.words[last : min(end, last + 6)]
        told = told[: told.index(",")] if "," in told else told
        with_it = told[:2] in (("that", "comes"), ("that", "came"), ("which", "comes")) and "with" in told
        again = talk.w.opens(first) and runs_again(talk, last, end)
        if not needed and not with_it and not again and any(w in word_set("not_fitted_yet") for w in told):
            continue
        if of_my_tools(talk, first, things[0], last):
            continue  # "it was my hose gasket. New gasket, started again"
        after = talk.words[last] if last < end else ""
        in_place = (
            len(things) > 1
            or (
                last < end
                and talk.scopes.kind(last) == "past"
                and after not in ("read", "was", "drew", "pulled", "got", "had", "came")
            )
            or (after in ("is", "'s") and last + 1 < end and talk.words[last + 1] == "in")
            or after in word_set("after_new_part")
            or (
                talk.w.opens(first)
                and (
                    again
                    or is_mark(after)
                    or (after == "now" and talk.words[last + 1 : last + 2] in ((), (".",), (",",)))
                    or (after == "for" and not put_off(talk, last, end))
                )
            )
            or (
                talk.w.opens(i)
                and talk.words[last : last + 3]
                in (
                    ("out", "of", "the"),
                    ("off", "the", "truck"),
                    ("off", "the", "van"),
                    ("from", "the", "van"),
                    ("from", "the", "truck"),
                    ("off", "my", "truck"),
                    ("out", "of", "stock"),
                    ("from", "the", "kit"),
                )
            )
        )
        if needed:
            b = first - 1
            status = talk.scopes.noun(first, last)
            whose = talk.words[talk.scopes.skip_back(b - 1, start)] if b > start else ""
            if (
                status is not None
                and whose not in ("didn't", "don't", "doesn't", "not", "you", "they", "won't")
                and not any(w in word_set("perhaps") for w in talk.words[max(start, b - 4) : b])
                and talk.scopes.ours(first)
            ):
                out.append(Handled("replaced", "planned", things, first, last, None, True))
            continue
        told_of = tells_of_one_in_place(talk, last, end) or (went_in and all_went_in(talk, last, end))
        if the_new and not told_of:
            continue
        in_place = in_place or (told_of and (the_new or talk.w.opens(i)))
        counted = bool(after) and (after.isdigit() or after in NUMBER_WORDS)
        pieces = (
            counted and last + 1 < end and talk.words[last + 1] in ("pieces", "piece", "pcs", "off", "of")
        )
        if (not in_place or counted) and not pieces:
            continue
        status = talk.scopes.noun(first, last)
        if status is None:
            continue
        previous = governed_otherwise(talk, first, start)
        if previous == "none":
            continue
        added = all(t.part in part_words("added") for t in things)
        out.append(Handled("installed" if added else "replaced", status, things, first, last, None, True))
    return out


def all_went_in(talk: Talk, k: int, end: int) -> bool:
    """Tell whether the next finite verb behind word k is "went in": "the new X and a new Y went in"."""
    while k < end and talk.scopes.kind(k) not in ("past", "third") and talk.words[k] not in (".", ";", "but"):
        k += 1
    return talk.words[k : k + 2] in (("went", "in"), ("went", "on"))


def runs_again(talk: Talk, k: int, end: int) -> bool:
    """Tell whether "and it runs", "and away she went" stands behind a new part that opens a sentence."""
    return (
        talk.words[k : k + 1] == ("and",)
        and k + 1 < end
        and talk.words[k + 1] in word_set("new_part_and")
        and not put_off(talk, k, end)
    )


def of_my_tools(talk: Talk, first: int, thing: Thing, last: int) -> bool:
    """Tell whether a new gasket, battery or hose is one of the technician's own tools."""
    if thing.name not in word_set("parts_of_tools"):
        return False
    behind = talk.words[last : last + 6]
    if behind[:1] in (("in",), ("on",), ("for",)) and any(
        w in word_set("own_tools") or w in ("my", "manifold") for w in behind[1:4]
    ):
        return True
    if any(w in ("door", "lid") for w in talk.words[max(0, first - 40) : last]):
        return False
    number = talk.w.sentence_of[first]
    start = talk.w.sentences[max(0, number - 1)][0]
    told = talk.words[start : talk.w.sentences[number][1]]
    return any(
        (
            w in ("hose", "hoses", "manifold")
            and "hose" not in thing.name
            and (not k or told[k - 1] not in ("suction", "discharge", "liquid", "a/c"))
        )
        or (w == "my" and told[k + 1 : k + 2] != ("truck",))
        for k, w in enumerate(told)
    )


def made_up(talk: Talk, k: int, end: int) -> bool:
    """Tell whether "made up", "crimped" stands behind a new hose: one of the machine, not of the gauges."""
    told = talk.words[k : min(end, k + 6)]
    return bool(told) and told[0] in ("made", "crimped", "fitted", "screwed", "run") and "my" not in told


def one_fitted(talk: Talk, i: int) -> Handled | None:
    """Read "slid the new one in": the new one stands behind a verb that puts it in or on."""
    alone = talk.words[i] == "replacement" and talk.words[i + 1 : i + 2] in (("in",), ("on",))
    if not alone and talk.words[i + 1 : i + 2] not in (("one",), ("ones",)):
        return None
    start, end = talk.scopes.sentence(i)
    first = i - 1 if i > start and talk.words[i - 1] in ("the", "a", "its", "their") else i
    verb = verb_of_fitting(talk, first, start)
    if verb is None:
        return None
    beside = (*talk.words[verb + 1 : first], *talk.words[i + 1 : min(end, i + 3)])
    if not any(w in ("in", "on", "onto") for w in beside):
        return None
    thing = part_meant(talk, verb, "replaced")
    status = talk.scopes.verb(verb)
    if thing is None or status is None:
        return None
    return Handled("replaced", status, [thing], verb, i + 2, verb, True, pronoun=True)


def tells_of_one_in_place(talk: Talk, k: int, end: int) -> bool:
    """Tell whether what stands behind a new part at word k speaks of it as fitted ("... reads 32.6")."""
    if k >= end or put_off(talk, k, end):
        return False
    after, behind = talk.words[k], talk.words[k + 1 : k + 2]
    if after in ("is", "'s"):
        return bool(behind) and (
            behind[0] in NUMBER_WORDS
            or behind[0][0].isdigit()
            or (
                behind[0] == "in"
                and not any(w in word_set("supply_places") for w in talk.words[k + 2 : k + 5])
            )
            or behind[0] in ("part", "number", "serial", "fitted", "model", "a", "an")
        )
    return after in word_set("tells_of_new_one")


def verb_of_fitting(talk: Talk, first: int, start: int) -> int | None:
    """Return the verb that puts the new thing at word `first` in ("slid a new board in")."""
    j = first - 1
    if j > start and talk.words[j] in ("the", "that", "his", "her"):
        j -= 1
    if j > start and talk.words[j] in ("in", "on", "up", "down"):
        j -= 1
        if talk.words[j] in ("him", "it", "her"):
            j -= 1
    if j < start:
        return None
    form = talk.scopes.forms.get(talk.words[j])
    made = form is not None and form.verb == "make" and talk.words[j + 1] == "up"
    if form is None or not (made or form.verb in word_set("fitting_verbs")) or talk.scopes.verb(j) is None:
        return None
    return j


def put_in_beside(
    talk: Talk, verb: int, things: list[Thing], last: int, pronoun: bool, np: str | None
) -> Handled | None:
    """Return the doing of a verb that only puts something in with "in" or "on" beside it."""
    _, end = talk.scopes.sentence(verb)
    if not any(
        w in ("in", "on", "up", "back", "into", "onto", "over", "across", "around", "round")
        for w in (*talk.words[verb + 1 : verb + 3], *talk.words[last : min(end, last + 2)])
    ):
        return None
    unknown = None
    if not things and pronoun:
        referent = part_meant(talk, verb, "replaced")
        if referent is None:
            return None
        things = [referent]
    elif not things:
        if np is None or np.split()[-1] in word_set("no_new_part") or talk.words[verb + 1] == "up":
            return None
        unknown = np
    status = talk.scopes.verb(verb)
    assert status is not None
    return Handled("replaced", status, things, verb, last, verb, True, unknown, pronoun)


def part_of_no_list(talk: Talk, i: int, np: str, end: int) -> Handled | None:
    """Read "New cam on the timer.", a part of no vocabulary that a sentence opens with."""
    last = i + 1 + len(np.split())
    opens = talk.w.opens(i) or talk.words[i - 1] in (",", "and")
    if not opens or np.split()[-1] in word_set("no_new_part") or np.split()[0] in word_set("no_new_part"):
        return None
    if talk.words[i + 1 : last] != tuple(np.split()):
        return None
    after = talk.words[last] if last < end else "."
    if after not in ("on", "in", "from", ".", ",", "and", "for", "under", "behind", "at"):
        return None
    if after in (".", ",", "and") and not talk.w.opens(i):
        return None
    if talk.scopes.noun(i, last) != "done" or any(
        talk.scopes.kind(k) in ("past", "third") for k in range(i + 1, last)
    ):
        return None
    if np.split()[0] in NUMBER_WORDS or np.split()[-1] in word_set("kinds_of_machine"):
        return None  # "new five mike"; "New ductless, 12,000 BTU", "new roll-in blast chiller"
    return Handled("replaced", "done", [], i, last, None, True, np)


def governed_otherwise(talk: Talk, i: int, start: int) -> str | None:
    """Tell whether a verb before governs the new thing in another sense ("quoted a new drier")."""
    for j in range(i - 1, max(start, i - 10) - 1, -1):
        word = talk.words[j]
        if word in (",", ";"):
            return None
        if word in word_set("only_wanted"):
            return "none"
        if word in (".", ";"):
            return None
        if talk.scopes.kind(j) == "past":
            return None
    return None
