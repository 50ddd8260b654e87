"""-ing forms, by what stands before them."""

from __future__ import annotations

from dictate.mentions.tense.chains import past_between, previous_ing
from dictate.mentions.tense.denials import fronted_and_denied, turned_down
from dictate.mentions.tense.plans import comes_another_day, framed_as, has_to_wait, is_framed
from dictate.mentions.tense.talk import Talk
from dictate.mentions.tense.unreal import is_unreal, named_as_subject
from dictate.mentions.tense.vocabulary import Status
from dictate.vocabulary.load import word_set


def ing_form(talk: Talk, i: int) -> Status | None:
    """Judge the -ing form at word i ("finished brazing", "before brazing", "brazing it now")."""
    words = talk.words
    start, _ = talk.sentence(i)
    g = talk.skip_back(i - 1, start)
    if has_to_wait(talk, i):
        return "planned"
    if turned_down(talk, i):
        return "not_done"
    if any(words[k : k + 2] == ("no", "way") for k in range(max(start, i - 5), i)):
        return None  # "no way I'm brazing in here"
    if is_framed(talk, i) and (g < start or words[g] not in ("without", "no", "not", "before", "after")):
        return framed_as(talk, i)
    if g < start:
        if fronted_and_denied(talk, i + 1):
            return "not_done"
        clause_end = talk.clause_end(i)
        ruled = named_as_subject(talk, i, clause_end)
        if ruled != "no":
            return ruled
        # "Brazing the joint tomorrow"; "Pulling a vacuum now": live speech counts as being done.
        return "planned" if talk.has(i, clause_end, "lists", "planned") is not None else "done"
    if g > start and words[g] in word_set("nitrogen_names") and words[g - 1] in ("no", "without"):
        return "not_done"  # "nobody lit a torch, so no nitrogen flowing through it"
    best: tuple[int, str] | None = None
    for name in ("not_done", "planned", "none", "done"):
        n = talk.ends_with(g, "before_ing", name, start=start)
        if n and (best is None or n > best[0]):
            best = (n, name)
    if best is None or best[1] == "none":
        return None
    status = best[1]
    if words[g] == "left" and words[i] in ("running", "working", "operating", "cooling"):
        return "done"  # "the system was left running"
    if status == "not_done":
        return "not_done"
    if status == "planned":
        before = talk.skip_back(g - best[0], start)
        if before >= start and words[before] in ("not", "doesn't", "didn't", "won't", "don't"):
            return "not_done"
        if (
            words[g] == "be"
            and before >= start
            and words[before] in ("would", "could", "should", "may", "might")
        ):
            return None
        if words[g] == "be" and words[max(start, g - 2) : g] in (("ought", "to"), ("supposed", "to")):
            return None  # "it ought to be sitting at seventy": how things should be
        return "planned"
    word = words[g]
    if word in ("am", "i'm", "we're") and comes_another_day(talk, i):
        return "planned"
    if word in ("was", "were", "am", "are", "is", "'s", "i'm", "we're", "been"):
        return "done" if words[i] not in ("going",) else None
    if word in ("after", "while", "when", "by", "with", "through"):
        if is_unreal(talk, start, g):
            return None  # "should flow nitrogen when brazing"
        # The main clause tells whether this is still to come.
        start_c, end_c = talk.sentence(i)
        if talk.has(start_c, end_c, "modal", "planned") is not None and not past_between(
            talk, start_c, end_c
        ):
            return None
        return "done"
    if word in (",", "and", "then"):
        if comes_another_day(talk, i):
            return "planned"  # "the filters are shot, changing those next trip"
        previous = previous_ing(talk, g, start)
        if previous is not None:
            return talk.verb(previous)
        return (
            "planned"
            if talk.has(start, g, "lists", "planned") is not None and not past_between(talk, start, g)
            else "done"
        )
    return "done"
