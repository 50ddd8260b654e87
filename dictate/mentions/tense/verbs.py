"""A verb of work: what its form says, then who, when and under which condition."""

from __future__ import annotations

from dictate.mentions.patterns import AMBIGUOUS
from dictate.mentions.tense.chains import base_context
from dictate.mentions.tense.conditions import beside_condition, is_advice, is_conditional
from dictate.mentions.tense.denials import (
    answered_behind,
    answered_like_a_form,
    by_nobody,
    denied_do,
    done_to_nothing,
    of_mine,
    taken_back,
    turned_down,
    was_neglected,
)
from dictate.mentions.tense.given_up import is_given_up
from dictate.mentions.tense.ing_forms import ing_form
from dictate.mentions.tense.past_forms import past_form
from dictate.mentions.tense.plain_forms import plain_form
from dictate.mentions.tense.plans import framed_as, is_framed
from dictate.mentions.tense.talk import Talk
from dictate.mentions.tense.telling import customer_told, nobody_told, speaker_was_told, told_by_the_way
from dictate.mentions.tense.unreal import before_arrival
from dictate.mentions.tense.vocabulary import TELLING, Status
from dictate.mentions.tense.whose_doing import is_ours
from dictate.vocabulary.load import word_set


def by_its_form(talk: Talk, i: int) -> Status | None:
    """Judge the verb at word i by its form and the word that governs it."""
    kind = talk.kind(i)
    if kind == "third":
        return None
    if kind == "ing":
        return ing_form(talk, i)
    start, _ = talk.sentence(i)
    g = talk.before(i, start)
    if talk.words[i] in AMBIGUOUS:
        kind = "base" if base_context(talk, g, start) else "past"
    return plain_form(talk, i, g, start) if kind == "base" else past_form(talk, i, g, start)


def verb_of_work(talk: Talk, i: int) -> Status | None:
    """Return what became of the work that the verb at word i names; ask `Scopes.verb`, which remembers it."""
    if i and (talk.words[i - 1] in ("almost", "nearly") or talk.words[i - 1] in word_set("before_adjective")):
        return None
    if talk.words[i] in ("did", "does", "do") and talk.words[i + 1 : i + 2] == ("not",):
        return denied_do(talk, i)
    if talk.kind(i) == "ing" and turned_down(talk, i):
        return "not_done"
    if by_nobody(talk, i):
        return None if was_neglected(talk, i) else "not_done"
    status = by_its_form(talk, i)
    form = talk.forms.get(talk.words[i])
    telling = form is not None and form.verb in TELLING
    if status is not None and not is_ours(talk, i, telling=telling, to_come=status == "planned"):
        status = None
    if telling and speaker_was_told(talk, i):
        return None
    if telling and status is None and (customer_told(talk, i) or told_by_the_way(talk, i)):
        status = "not_done" if nobody_told(talk, i) else "done"
    if status in ("done", "planned") and not telling and (is_conditional(talk, i) or is_advice(talk, i)):
        status = None
    if status == "done" and not telling and is_framed(talk, i):
        status = framed_as(talk, i)  # "I'd have to pull it, nitrogen going while I braze"
    if status == "done" and is_given_up(talk, i):
        status = None
    if status == "done" and before_arrival(talk, talk.clause_start(i), talk.clause_end(i)):
        status = None
    if status == "planned" and beside_condition(talk, i):
        status = None
    if status == "done" and (taken_back(talk, i) or done_to_nothing(talk, i)):
        status = "not_done"
    if status is not None and not telling:
        _, end = talk.sentence(i)
        told = answered_behind(talk, i) if talk.words[end - 1] == "?" else answered_like_a_form(talk, i)
        status = told if told is not None else status
    if status == "not_done" and was_neglected(talk, i):
        status = None
    if status is not None and of_mine(talk, i):
        status = None
    return status
