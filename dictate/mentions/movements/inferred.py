"""What all else around an amount lets one think, where no verb of recovering or charging governs it."""

from __future__ import annotations

from dictate.mentions.movements.mass import Mass
from dictate.mentions.movements.surroundings import gas_named, of_pump_or_water, vessel_in
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.vocabulary import phrases, told_behind
from dictate.mentions.quantities import Quantity
from dictate.vocabulary.load import word_set

GAS = frozenset((w,) for w in word_set("gas_words"))


def inferred_from_surroundings(talk: Talk, start: int, end: int, q: Quantity) -> tuple[str, str | None, int]:
    """Judge an amount that no verb of recovering or charging governs, by everything else around it.

    Where it went ("into the grey jug", "off the virgin bottle", "five pounds liquid") tells the
    direction; without that the stage of the work does, with a reason to look: behind the vacuum gas
    only goes in, behind the start of a recovery it only comes out.
    """
    unsaid = "unsaid", None, start
    s0, s1 = talk.scopes.sentence(start)
    if of_a_plan(talk, start, s0):
        return unsaid
    near = talk.mass_spans
    first = max([s0, *(b for a, b in near if s0 <= a and b <= start)])
    last = min([s1, *(a for a, _ in near if end <= a < s1)])
    before, rest = talk.words[max(first, start - 12) : start], talk.words[end : min(last, end + 12)]
    clause = (*before, *rest)
    sure = bool(q.parts) or not any(u == "psi" for u, _ in q.means)
    if talk.scopes.noun(start, end) != "done" or not may_be_gas(talk, end, before, rest):
        return unsaid
    gas = gas_named(talk, first, last, clause)
    if not sure and (of_pump_or_water(talk, s0, s1) or (q.value > 99 and not gas)):
        return unsaid
    way = way_told_by_place(before, rest)
    sentence = talk.words[s0:s1]
    if (
        way is None
        and "liquid" in rest[:3]
        and not any(w in word_set("stage_out") or w in ("total", "altogether") for w in sentence)
    ):
        way = "charged"  # "six pounds liquid, then I let it run"
    stands = {"in", "had", "held", "left"} & set(clause)
    taken = talk.words[s1 : s1 + 2] in phrases("recovers_that") or any(
        talk.words[k : k + 2] in phrases("recovers_that") or talk.words[k : k + 3] in phrases("recovers_that")
        for k in range(end, min(s1, end + 8))
        if talk.words[k - 1] in (",", "and", "so", "i")
    )
    if taken and stands:
        return "recovered", "done", start  # "There was eleven ounces in it. Recovered that."
    if new_gas_with_it(talk, start, s0, rest):
        return "charged", "done", start
    told_next = " ".join(talk.words[s1 : s1 + 7])
    if "'s what" in told_next[:12]:
        ways = [d for d, said in told_behind().items() if any(p in told_next for p in said)]
        if len(ways) == 1:
            return ways[0], "done", start  # "I stopped at eleven ounces. That's what I put in."
    scaled = any(w in word_set("weighing_words") for w in clause)
    placed = gas or scaled or vessel_in(clause)
    if way is not None and (
        placed or (sure and (way == stage_of_work(talk, start, s0) or not rests_on_little(talk, before, s0)))
    ):
        return way, "done", start
    stage = stage_of_work(talk, start, s0)
    if way is not None and stage is None and not gas and not sure:
        return unsaid
    if stage is None or (before and before[-1] in ("the", "of", "for", "than", "at", "to", "from", "my")):
        return unsaid
    told = any(w in word_set("stage_in") or w in word_set("stage_out") for w in before)
    if way is None and not (sure and (not before or told)) and not gas and not scaled:
        return unsaid
    if way is None:
        talk.staged = not (told and scaled)  # "after the vacuum sixty-five grams by the scale"
    return (way or stage), "done", start


def leave_to_plans(talk: Talk, amounts: list[Mass]) -> None:
    """Call planned what a plain verb in a plan moves: "Plan is a new coil and weigh seven pounds in"."""
    for a in amounts:
        if a.kind not in ("recovered", "charged") or a.status != "done":
            continue
        s0, _ = talk.scopes.sentence(a.start)
        row = talk.words[s0 : a.start]
        if any(w in ("plan", "plan's") for w in row) and of_a_plan(talk, a.start, s0):
            a.status = "planned"


def of_a_plan(talk: Talk, start: int, s0: int) -> bool:
    """Tell whether the last verb before it is of a plan: "I'll pull it down and weigh in 17 ounces"."""
    for k in range(start - 1, s0 - 1, -1):
        kind = talk.scopes.kind(k)
        if kind in ("past", "ing"):
            return False
        if kind == "base" and not talk.scopes.like_a_noun(k, s0):
            if talk.scopes.verb(k) == "planned":
                return True
            row = talk.words[s0:k]
            return bool(set(row) & word_set("not_yet_in_the_sentence")) or row[:1] == ("if",)
    return False


def may_be_gas(talk: Talk, end: int, before: tuple[str, ...], rest: tuple[str, ...]) -> bool:
    """Tell whether nothing beside the amount says that it is of another thing, or no whole amount."""
    if rest[:1] == ("of",) and not (talk.in_name(end + 1) or rest[1:2] in GAS):
        k = 2 if rest[1:2] and rest[1] in ("the", "new", "virgin", "fresh", "clean", "liquid") else 1
        if rest[k : k + 1] not in GAS and not talk.in_name(end + k):
            return False
    if rest[:1] in (("a",), ("an",), ("per",), ("each",), ("every",)):
        return False  # "twenty grams a metre"
    comma = rest.index(",") if "," in rest else len(rest)
    if _by_the_plate(rest[comma + 1 :]):
        rest = rest[:comma]  # "two kilos on the scales, what the sticker wants"
    if any(w in word_set("plate_words") for w in (*before[-8:], *rest[:comma])):
        return False
    around = (*before[-8:], *rest[:8])
    if any(w in word_set("not_moved") and not sided(around, i) for i, w in enumerate(around)):
        return False
    if any(w in word_set("other_stuff") for w in around):
        return False
    return not any(
        h.label == "other" and end <= h.start < end + 5 and h.verb is None
        and talk.words[h.start] not in ("high", "low", "suction", "discharge", "head", "liquid")
        for h in talk.hits
    )  # fmt: skip


def _by_the_plate(behind: tuple[str, ...]) -> bool:
    """Tell whether words only say that a plate, a label or a book tells the same amount."""
    ground = next((n for n in (3, 2) if behind[:n] in phrases("same_as_told")), 0)
    return bool(ground) and any(w in word_set("plate_words") for w in behind[ground : ground + 2])


def new_gas_with_it(talk: Talk, start: int, s0: int, rest: tuple[str, ...]) -> bool:
    """Tell whether new gas went in with the amount before: "put the two pounds back with 8 ounces of new"."""
    last = talk.masses[-1] if talk.masses else None
    if last is None or last.kind != "charged" or last.status != "done" or last.start < s0:
        return False
    between = talk.words[last.end : start]
    fresh = any(w in ("new", "virgin", "fresh", "extra", "more") for w in rest[:4]) or rest[:2] == (
        "on",
        "top",
    )
    return len(between) <= 5 and bool({"with", "plus", "and"} & set(between)) and fresh


def sided(row: tuple[str, ...], i: int) -> bool:
    """Tell whether a side of the machine is where the gas went: "eight ounces into the suction"."""
    return (
        row[i] in ("suction", "head", "low", "high", "discharge")
        and row[max(0, i - 1) : i] in (("the",), ("its",), ("that",))
        and row[max(0, i - 2) : i - 1]
        in (("into",), ("through",), ("in",), ("to",), ("at",), ("off",), ("from",))
    )


def rests_on_little(talk: Talk, before: tuple[str, ...], s0: int) -> bool:
    """Tell whether only a word that is said of everything leads to it.

    ("ten minutes of ice came to ...").
    """
    if before == ("got",):
        return False
    low = talk.w.sentences[max(0, talk.w.sentence_of[s0] - 2)][0]
    if any(h.label == "recovered" and low <= h.start < s0 for h in talk.hits):
        return False
    return any(w in ("got", "came", "pulled", "gave", "fed", "threw", "in") for w in before[-6:])


def way_told_by_place(before: tuple[str, ...], rest: tuple[str, ...]) -> str | None:
    """Return the direction told by the place it went to or came from, or by a word of one way only."""
    votes: list[str] = []
    for row in (before, rest):
        for i, word in enumerate(row):
            tail = row[i + 1 : i + 6]
            stop = next((n for n, w in enumerate(tail) if w in (",", ".", "and", "then")), len(tail))
            tail = tail[:stop]
            vessel = vessel_in(tail)
            machine = any(w in word_set("gas_places") for w in tail)
            if word == "to" and vessel and set(tail) & word_set("charging_vessels"):
                continue  # "swapped to a new cylinder, 25 pounds"
            if word in ("into", "in", "to") and vessel:
                votes.append("charged" if set(tail) & word_set("charging_vessels") else "recovered")
            elif (word in ("off", "from") and vessel) or (word in ("into", "in", "through") and machine):
                votes.append("charged")
            elif (word in ("off", "from") or row[i : i + 2] == ("out", "of")) and machine:
                votes.append("recovered")
    if "got" in before[-3:] and rest[:2] in (("in", "it"), ("in", "her"), ("in", "there")):
        votes.append("charged")
    if votes:  # the place says more than a verb of both ways ("bled eight ounces into the low side")
        return votes[0] if len(set(votes)) == 1 else None
    comma = max((i + 1 for i, w in enumerate(before) if w == ","), default=0)
    near = before[comma:]
    if "got" in near and (
        near.index("got") == 0 or near[near.index("got") - 1] in ("i", "we", "and", "just")
    ):
        votes.append("recovered")
    both = ((near, "lead"), (rest, "tail"))
    for row, place in both:
        for name, way in ((f"soft_in_{place}", "charged"), (f"soft_out_{place}", "recovered")):
            if any(row[i : i + len(p)] == p for p in phrases(name) for i in range(len(row))):
                votes.append(way)
    return votes[0] if len(set(votes)) == 1 else None


def stage_of_work(talk: Talk, start: int, s0: int) -> str | None:
    """Return the direction that the stage of the work allows, by the last word of the work before."""
    number = talk.w.sentence_of[start]
    low = talk.w.sentences[max(0, number - 3)][0]
    for i in range(start - 1, low - 1, -1):
        word = talk.words[i]
        if word in word_set("stage_in"):
            return "charged"
        if word in word_set("stage_out"):
            return "recovered"
        if word in word_set("stage_none") and i < s0:
            return None
    return None
