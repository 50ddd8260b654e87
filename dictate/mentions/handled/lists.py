"""Lists of parts ("Parts used: ...") and what is said to be the same for another ("Contactor too.")."""

from __future__ import annotations

from dictate.mentions.handled.doing import Handled, handled_parts
from dictate.mentions.handled.objects import objects_behind
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import part_words
from dictate.mentions.patterns import NUMBER_WORDS
from dictate.vocabulary.load import word_set


def from_lists(talk: Talk) -> list[Handled]:
    """Read "Parts used: one contactor, two capacitors"."""
    out: list[Handled] = []
    alone = False
    listing = False
    bare: str | None = None
    for start, end in talk.w.sentences:
        k = start
        while k < end and talk.words[k] in ("so", "and", "the", "for", ",", "my", "i", "we"):
            k += 1
        headed, alone = alone, False
        if listing and not headed and _goes_on(talk, start, end):
            headed = True  # "Parts. A contactor for the ... A crankcase heater, the old one was open."
        listing = False
        if (head := _after_head(talk, start, end)) is not None:
            k, bare = head
            headed = True  # "So what got hung: two heaters, ..."
        elif bare is not None:
            if _goes_on_bare(talk, start, end):
                headed = True  # "In: relay, number R4417. Run cap, five mike. Gasket."
            elif not _only_remarks(talk, start, end):
                bare = None
        if asked_what_was_changed(talk, start):
            headed = True
        if (
            k + 2 < end
            and talk.words[k] in ("fitted", "replaced", "installed", "changed", "swapped", "renewed")
            and talk.words[k + 1] == ":"
        ):
            k += 2
            things, _, last, _, _ = objects_behind(talk, k, end, "replaced")
            things = handled_parts(things)
            if things and talk.scopes.noun(k, last) == "done":
                out.append(Handled("replaced", "done", things, k, last, None, True))
            continue
        if k >= end or talk.words[k] not in (
            "parts",
            "bits",
            "spares",
            "materials",
            "material",
            "used",
            "part",
        ):
            if headed and k < end and (talk.scopes.kind(k) != "past" or talk.thing_from(k) is not None):
                k += talk.words[k] == "one"
                things, _, last, _, _ = objects_behind(talk, k, end, "replaced")
                things = handled_parts(things)
                listing = bool(things)
                hers = head is not None and talk.words[start:k].count("she") > 0  # "what all she got:"
                if things and not talk.scopes.framed(k) and (hers or talk.scopes.noun(k, last) == "done"):
                    out.append(Handled(bare or "replaced", "done", things, k, last, None, True))
            continue
        counted = (
            talk.words[k] == "used"
            and k + 1 < end
            and (
                talk.words[k + 1] in ("a", "an")
                or talk.words[k + 1] in NUMBER_WORDS
                or talk.words[k + 1][0].isdigit()
            )
        )
        alone = talk.words[k] != "used" and all(w in word_set("parts_list_heads") for w in talk.words[k:end])
        k += 1
        opened = counted
        while k < end and talk.words[k] in word_set("parts_list_words"):
            opened = opened or talk.words[k] in (":", ",", "used", "were", "are", "was", "is")
            k += 1
        if not opened and talk.words[k - 1] != "used":
            continue
        things, _, last, _, _ = objects_behind(talk, k, end, "replaced")
        things = handled_parts(things)
        if things and talk.scopes.noun(k, last) == "done":
            out.append(Handled("replaced", "done", things, k, last, None, True))
    return out


def asked_what_was_changed(talk: Talk, start: int) -> bool:
    """Tell whether the sentence before word `start` asks what was changed ("What did I change?")."""
    number = talk.w.sentence_of[start]
    if not number:
        return False
    first, last = talk.w.sentences[number - 1]
    asked = talk.words[first:last]
    if asked[-1] != "?" or not any(w in ("what", "parts", "which") for w in asked[:4]):
        return False
    return any(
        form is not None and form.verb in word_set("asks_of_parts")
        for form in (talk.scopes.forms.get(w) for w in asked)
    ) or asked[:-1] in (("parts",), ("new", "parts"), ("parts", "used"), ("any", "parts"), ("which", "parts"))


def same_for_another(talk: Talk) -> None:
    """Read "Contactor too.", "And the overload as well." after a replacement."""
    last: Handled | None = None
    done = [h for h in talk.out if h.action in ("replaced", "installed", "cleaned") and h.status == "done"]
    told = {talk.w.sentence_of[h.start]: h for h in done}
    for number, (start, end) in enumerate(talk.w.sentences):
        if number in told:
            last = told[number]
            continue
        if last is None or number - talk.w.sentence_of[last.start] > 3:
            continue
        k = start
        opened = False
        while k < end and talk.words[k] in word_set("ellipsis_openers"):
            opened = opened or talk.words[k] in ("and", "also", "plus", "same", "did")
            k += 1
        thing = talk.thing_from(k)
        if thing is None or thing.name in part_words("no_part"):
            continue
        tail = talk.words[thing.end : min(end, thing.end + 3)]
        too = bool(tail) and (tail[0] in ("too", "also") or tail[:2] in (("as", "well"), ("the", "same")))
        if too and any(w in word_set("only_looked_at") for w in tail[1:]):
            continue  # "cable also tested"
        at_it = "at" in talk.words[start:k] and "while" in talk.words[start:k]
        at_it = at_it and (
            not tail or tail[0] in (",", ".", ";", "and", "as")
        )  # not "..., glass was flashing"
        if too or at_it or (opened and tail[:1] in (("too",), ("also",))):
            talk.out.append(Handled(last.action, "done", [thing], start, thing.end, None, last.new))


def _goes_on(talk: Talk, start: int, end: int) -> bool:
    """Tell whether a list of parts goes on in the next sentence: an article or a count, and a part."""
    k = start
    while k < end and talk.words[k] in ("and", "plus", "also", "then", ","):
        k += 1
    article = talk.words[k] in ("a", "an", "another", "new") or talk.words[k] in NUMBER_WORDS
    joined = k > start and talk.words[k] == "the"
    if not (article or joined or talk.words[k][0].isdigit()):
        return False
    thing = next((t for t in talk.things if k < t.start < min(end, k + 8)), None)
    if thing is None:
        return False
    return not any(talk.scopes.kind(j) in ("past", "third", "base") for j in range(k, thing.start))


def _after_head(talk: Talk, start: int, end: int) -> tuple[int, str] | None:
    """Return the word behind the colon of "what got hung:", "in:", "she got:", and what was done."""
    colon = next((k for k in range(start + 1, min(end, start + 9)) if talk.words[k] == ":"), None)
    if colon is None:
        return None
    told = talk.words[start:colon]
    if any(w in ("not", "didn't", "still", "never", "needs", "need", "should", "if", "next") for w in told):
        return None
    if told in _SHORT_HEADS:
        return colon + 1, "replaced"
    if "what" not in told[:3] and told[:1] not in (("she",), ("it",)):
        return None
    for k in range(start, colon):
        form = talk.scopes.forms.get(talk.words[k])
        if form is None or form.kind != "past":
            continue
        if form.verb in word_set("heads_a_list_of_parts"):
            return colon + 1, "replaced"
        if form.verb == "clean":
            return colon + 1, "cleaned"
        if form.verb == "get" and k == colon - 1:
            return colon + 1, "replaced"  # "what all she got: the compressor, ..."
    return None


_SHORT_HEADS = (
    ("in",), ("new",), ("and", "in"), ("all", "new"), ("new", "parts"), ("new", "in"), ("gone", "in"),
    ("went", "in"), ("put", "in"), ("back", "in", "new"),
)  # fmt: skip


def _goes_on_bare(talk: Talk, start: int, end: int) -> bool:
    """Tell whether the next part of a list opens a sentence, and nothing else is told of it."""
    k = start
    while k < end and talk.words[k] in word_set("ellipsis_openers") | word_set("before_part_in_place"):
        k += 1
    thing = next(
        (t for t in talk.things if k < t.end and t.start < min(end, k + 6) and t.start >= start), None
    )
    if thing is None or thing.modifier or not handled_parts([thing]):
        return False
    row = talk.words[start:end]
    if thing.name in word_set("washed_parts") or any(w in ("brush", "vac", "hose", "hoover") for w in row):
        return False  # "condenser, brush and vac till I could see through it"
    if (
        any(w in word_set("old_one_kept") or w in word_set("washing") for w in row)
        or "not" in row
        or "old" in row
    ):
        return False
    comma = next((j for j in range(thing.end, end) if talk.words[j] in (",", ".")), end)
    return not any(
        talk.scopes.kind(j) in ("past", "third", "base")
        for j in (*range(k, thing.start), *range(thing.end, comma))
    )


def _only_remarks(talk: Talk, start: int, end: int) -> bool:
    """Tell whether a short sentence only remarks on a part, so that a list may go on behind it."""
    return (
        end - start <= 12
        and ":" not in talk.words[start:end]
        and not any(w in ("i", "we") for w in talk.words[start:end])
    )
