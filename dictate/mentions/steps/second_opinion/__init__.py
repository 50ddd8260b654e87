"""A second opinion on the steps: trained weights over the words of each stretch of the talk.

The phrases of steps.toml are exact and know the ways to say a step that somebody wrote down; technicians have
others. Two judges have learned from the labelled narrations, and from the sentences of the table tests, which
words go with which step: weights over single words and rows of words, and the text encoder, which reads them
in their order. Where they are sure together of a step that no phrase told, and the grammar of tense finds
nothing planned, denied or done by others there, the step is taken with a reason to look at it. Where a step
was told by a phrase and the words around are quite unlike it, it gets a reason as well; where nothing that
was said in the whole visit is like it, the phrase meant something else.

    stretches   the talk in stretches, and what each one holds: the features
    weights     the trained weights (weights.npz), and what they say

The weights are data, made by `python -m tests.benchmarks.steps --write`.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from typing import Any, cast

from dictate.mentions.patterns import Words
from dictate.mentions.second_opinion import A_VISIT, steps_by_encoder
from dictate.mentions.steps.found import BY_PART, Found
from dictate.mentions.steps.second_opinion.stretches import Stretch, stretches_of, tokens_of
from dictate.mentions.steps.second_opinion.weights import BETWEEN, Weights, trained
from dictate.mentions.tense import Scopes, Status
from dictate.vocabulary.load import word_set

SURE = {"run_checked": 0.1}
SURE_OF_OTHERS, SURE_OF_PARTS = 0.25, 0.75
"""A step that no phrase told is taken from this chance on, where both judges have spoken.

That a machine ran is told by what was read while it did, in no words of its own. Of what was done to a part
the words around say little of whether it was this one: but where nothing else in the visit tells it, it was
some part. With `CERTAIN`, steps found went from 94.2 to 96.0 % on 192 narrations that neither the judges nor
the phrases knew, and no more were wrongly done.
"""
CERTAIN = 0.9
"""From this chance on whatever its words tell beside it, and whatever the grammar of tense finds there."""
SURE_BY_WORDS, ALONE = 0.72, 0.3
"""By the weights of the words alone: from the first chance on, if its own stretch alone has the second."""
UNLIKE = 0.01
"""A step told by a phrase is asked about below this chance."""
NOWHERE = {"done": 0.006, "planned": 0.0018, "not_done": 0.0018}
"""A step told by a phrase is left out where no stretch of the whole visit has this chance of it.

Chosen on 150 narrations that neither judge knew: 9 of 20 steps that were wrongly taken as done have less, and
none of the right ones. What was done and is left out is asked for as not stated.
"""
RUNS_THOUGH_OFF = 0.5
"""Where the power was cut and nothing tells that it came back, a run is taken from this chance on."""
_TOLD_BY_A_WORD = frozenset({"ports_capped"})
"""Never left out: "recapped everything" is said once in a visit, in one word that the judges hardly know."""
OF_ENCODER = 0.8
"""The weight of the encoder, the words alone have the rest: chosen on narrations that neither knew."""
BY_WORDS = "no plain phrase told this step: taken because of all the words around it"
UNLIKE_IT = "the words around do not sound like this step"
_LEAST = 1e-6
_FEW = 4
"""Words of a stretch, with its stop, that tell no more than one step."""


def with_second_opinion(words: Words, scopes: Scopes, found: list[Found]) -> list[Found]:
    """Return the steps with those that only all the words together tell, and reasons where they doubt one."""
    if not words.words:
        return found
    rows, weights = stretches_of(words), trained()
    judged, by_both = _judged(words, rows, weights)
    best = judged.argmax(axis=0).tolist()
    column = {name: j for j, name in enumerate(weights.classes)}
    starts = [row.start for row in rows]
    if all(by_both):
        found = [
            f
            for f in found
            if _listed(words, scopes, f) or not _nowhere(f, judged, column.get((f.code, f.status)))
        ]
    out = [_asked(f, starts, judged, column.get((f.code, f.status))) for f in found]
    told = {(f.code, f.status) for f in found}
    ruled_out: dict[str, list[tuple[int, int]]] = words.narration.found.get("steps ruled out", {})
    for j, (code, status) in enumerate(weights.classes):
        k = best[j]
        if (code, status) in told or (code in BY_PART and not by_both[k]):
            continue
        if judged[k, j] < _least(code, by_both[k]):
            continue
        alone, i = weights.told_here(rows, k, j)
        if any(a < rows[k].end and rows[k].start < b for a, b in ruled_out.get(code, ())):
            continue  # a phrase of the words says that it is something else
        if code == "part_replaced" and any(
            f.code == "filter_drier_replaced" and rows[k].start <= f.start < rows[k].end for f in found
        ):
            continue  # a drier's change is a step of its own
        if status == "not_done" and (code, "done") in told and code not in BY_PART:
            continue  # "Didn't touch A.", where the other circuit was charged: words tell what was done
        if status == "done" and code not in BY_PART and _denied_here(code, rows[k], found):
            continue  # "he's off till Monday, so I ain't told a soul": telling is what it sounds like
        if status == "done" and scopes.framed(i):
            continue  # a plan that was announced is one, however sure the work sounds
        if status == "done" and (
            _only_planned(scopes, rows[k]) or (code == "customer_informed" and _told_us(words, rows[k]))
        ):
            continue
        listed = scopes.list_of(words.sentence_of[i])
        if status == "planned" and listed is not None and listed[2] == "not_done":
            continue  # a heading says that it was left undone
        certain = by_both[k] and judged[k, j] >= CERTAIN
        if not certain and any(f.start <= i < f.end for f in found):
            continue  # what often goes with a step that was told was not told by its words
        few = rows[k].end - rows[k].start <= _FEW
        if not certain and few and any(rows[k].start <= f.start < rows[k].end for f in found):
            continue  # "Recapped everything." tells one thing, whatever often comes last
        if (
            code == "run_checked"
            and judged[k, j] < RUNS_THOUGH_OFF
            and _still_off(rows[k].start, [*found, *out])
        ):
            continue
        if certain or ((by_both[k] or alone >= ALONE) and _open(scopes, rows[k], i, cast(Status, status))):
            out.append(Found(code, cast(Status, status), rows[k].start, rows[k].end, None, why=BY_WORDS))
    return out


def _listed(words: Words, scopes: Scopes, f: Found) -> bool:
    """Tell whether a step stands in a list under a heading: the judges hardly know such bare words."""
    return f.status != "done" and scopes.list_of(words.sentence_of[f.start]) is not None


def _still_off(i: int, told: list[Found]) -> bool:
    """Tell whether the power was off at word i: isolated before it, and restored nowhere in the visit."""
    done = [g for g in told if g.status == "done"]
    return any(g.code == "power_isolated" and g.start < i for g in done) and not any(
        g.code == "power_restored" for g in done
    )


def _denied_here(code: str, row: Stretch, found: list[Found]) -> bool:
    """Tell whether the words of a stretch deny a step, and no phrase tells that it was done all the same."""
    here = {f.status for f in found if f.code == code and f.start < row.end and row.start < f.end}
    return "not_done" in here and "done" not in here


def _told_us(words: Words, row: Stretch) -> bool:
    """Tell whether somebody told or gave the speaker something, and he told nobody.

    "The owner told us to skip that."  "Cook fed me, too."
    """
    said = words.words[row.start : row.end]
    told = [k for k, w in enumerate(said) if w in word_set("done_to_us")]
    return bool(told) and all(
        said[k + 1 : k + 2] in (("us",), ("me",)) and said[k - 1 : k] not in (("i",), ("we",)) for k in told
    )


def _only_planned(scopes: Scopes, row: Stretch) -> bool:
    """Tell whether the grammar finds only planned verbs in a stretch ("I'll let him know")."""
    judged = {scopes.verb(k) for k in range(row.start, row.end) if scopes.kind(k) is not None}
    return "planned" in judged and "done" not in judged


def _least(code: str, by_both: bool) -> float:
    """Return the chance from which a step is taken that no phrase told."""
    if not by_both:
        return SURE_BY_WORDS
    return SURE_OF_PARTS if code in BY_PART else SURE.get(code, SURE_OF_OTHERS)


def _judged(words: Words, rows: list[Stretch], weights: Weights) -> tuple[Any, list[bool]]:
    """Return the chance of each class of the weights in each stretch, and whether both judges spoke there."""
    import numpy as np

    chances = weights.judge(rows)
    if len(words.narration.tokens) < A_VISIT:
        return chances, [False] * len(rows)  # the encoder is too sure of a few words
    names, odds = steps_by_encoder(words.narration, tokens_of(words, rows))
    known = {name: i for i, name in enumerate(names)}
    both = [(j, known[name]) for j, of in enumerate(weights.classes) if (name := BETWEEN.join(of)) in known]
    spoken = ~np.isnan(odds[:, 0])  # a stretch that was not read is not a number
    if both:
        here = np.ix_(spoken, [j for j, _ in both])
        chances[here] = _by_both(chances[here], odds[np.ix_(spoken, [i for _, i in both])])
    return chances, spoken.tolist()


def _by_both(chances: Any, odds: Any) -> Any:
    """Return the chances by both: the means of the logarithms of the odds."""
    import numpy as np

    kept = np.clip(chances, _LEAST, 1 - _LEAST)
    return 1 / (1 + np.exp((OF_ENCODER - 1) * np.log(kept / (1 - kept)) - OF_ENCODER * odds))


def _nowhere(f: Found, judged: Any, column: int | None) -> bool:
    if column is None or f.why or f.code in _TOLD_BY_A_WORD:
        return False
    return bool(judged[:, column].max() < NOWHERE[f.status])


def _asked(f: Found, starts: list[int], judged: Any, column: int | None) -> Found:
    if column is None or f.why:
        return f
    here = judged[max(bisect_right(starts, f.start) - 1, 0) : bisect_left(starts, f.end), column]
    return f.asked(UNLIKE_IT) if len(here) and here.max() < UNLIKE else f


def _open(scopes: Scopes, row: Stretch, i: int, status: Status) -> bool:
    """Tell whether the grammar leaves the step open: nothing planned, conditional, denied or of others."""
    if not scopes.ours(i) or scopes.conditional(i) or scopes.advised(i):
        return False
    start, _ = scopes.sentence(i)
    if any(w in word_set("prices_work") for w in scopes.words[start:i]):
        return False
    verbs = [k for k in range(row.start, row.end) if scopes.kind(k) is not None]
    judged = scopes.verb(min(verbs, key=lambda k: (abs(k - i), k))) if verbs else None
    return judged in (None, status) and not (status == "done" and scopes.framed(i))
