"""Plans that are announced anywhere in a sentence: "so the job then is recover, cut it out, braze it"."""

from __future__ import annotations

from dictate.mentions.patterns import AMBIGUOUS
from dictate.mentions.tense.talk import Talk
from dictate.mentions.tense.vocabulary import BE, OURS, flat
from dictate.vocabulary.load import word_set

NAMED_WITHIN, WANTED_WITHIN, TIME_WITHIN, ARRIVES_WITHIN = 8, 12, 8, 14
"""Words within which "is" stands behind a plan's noun and behind "what", a doing behind its time, and the
main clause behind "when it comes"."""
_IS = ("is", "'s", "was")
_JOINS = frozenset(",;:.") | {"and", "so", "but", "then", "because", "cause"}


def announced(talk: Talk, start: int, end: int) -> int | None:
    """Return the word behind the first plan that is announced in the sentence [start, end)."""
    for j in range(start, end):
        if j > start and talk.words[j - 1] not in _JOINS:
            continue
        k = j
        while k < end and talk.words[k] in word_set("plan_openers"):
            k += 1
        for finds in (_days_plan, _by_noun, _by_what, _by_time, _on_arrival):
            head = finds(talk, k, end)
            if head is not None and head < end:
                if finds is _by_time or finds is _on_arrival:
                    talk.not_headings.add(head)
                return head
    head = _governed(talk, start, end)
    if head is not None:
        talk.not_headings.add(head)
    return head


def _days_plan(talk: Talk, k: int, end: int) -> int | None:
    """Return the word behind "Wednesday's the plan:", "Tuesday's list."."""
    n = talk.begins_with(k, "lists", "plan_days", end=end)
    if not n or talk.words[k + n : k + n + 1] not in (("'s",), ("is",)):
        return None
    m = k + n + 1
    m += m < end and talk.words[m] in word_set("articles")
    named = flat("announced", "sure_nouns") | flat("announced", "work_nouns") | {"jobs"}
    return m + 1 if m < end and talk.words[m] in named else None


def _by_noun(talk: Talk, k: int, end: int) -> int | None:
    """Return the word behind "my thinking is", "the job then is:", "order of work for Monday is"."""
    noun = next((j for j in range(k, min(end, k + 3)) if _names_a_plan(talk.words[j])), None)
    if noun is None or any(talk.kind(j) == "past" or talk.words[j] in OURS for j in range(k, noun)):
        return None
    for j in range(noun + 1, min(end - 1, noun + NAMED_WITHIN)):
        word, behind = talk.words[j], talk.words[j + 1]
        if word in (",", ".", ";") or talk.kind(j) == "past" or word == "was":
            return None
        marked = talk.has(noun, j, "announced", "future_marks") is not None
        sure = talk.words[noun] in flat("announced", "sure_nouns") or marked
        if word == ":":
            return j + 1 if sure else None
        if word in ("will", "would", "'ll", "'d") and behind == "be":
            return j + 2
        if word in ("is", "'s"):
            if behind in flat("announced", "done_behind"):
                return None
            return j + 1 if sure or behind in (":", "to") or _orders(talk, j + 1) else None
    return None


def _names_a_plan(word: str) -> bool:
    return word in flat("announced", "sure_nouns") or word in flat("announced", "work_nouns")


def _orders(talk: Talk, k: int) -> bool:
    """Tell whether the word at k is a plain form of a verb and nothing else."""
    return talk.kind(k) == "base" and talk.words[k] not in AMBIGUOUS


def _by_what(talk: Talk, k: int, end: int) -> int | None:
    """Return the word behind "what I'll need next time is", "what's gonna happen is", "what it needs is"."""
    n = talk.begins_with(k, "lists", "plan_days", end=end) or talk.begins_with(
        k, "announced", "times_to_come", end=end
    )
    k += n
    if k >= end or talk.words[k] not in ("what", "what'll", "all"):
        return None
    wanted = talk.words[k] == "what'll"
    for j in range(k + 1, min(end - 1, k + WANTED_WITHIN)):
        word = talk.words[j]
        if word in (",", ".", ";", "you", "you'll") or word in ("did", "was", "had", "found"):
            return None
        if word in ("is", "'s", "'re", "are") and wanted:
            return j + 1
        if talk.kind(j) == "past" and word not in flat("announced", "wanted") and word not in AMBIGUOUS:
            return None
        wanted = wanted or word in flat("announced", "wanted") or talk.words[j : j + 2] == ("have", "to")
    return None


def _by_time(talk: Talk, k: int, end: int) -> int | None:
    """Return the word behind a time to come with a doing: "in the morning I'll", "first light I"."""
    while k < end and talk.words[k] in word_set("before_coming_back"):
        k += 1
    back = talk.begins_with(k, "announced", "coming_back", end=end)
    n = 0
    for path in (("lists", "plan_days"), ("announced", "times_to_come"), ("lists", "plan_tails")):
        n = max(n, talk.begins_with(k + back, *path, end=end))
    if not n:
        return None
    sure = talk.words[k + back] in ("first", "tomorrow", "next", "come", "at")
    k += back + n
    if back:
        return k
    for j in range(k, min(end - 1, k + TIME_WITHIN)):
        word = talk.words[j]
        if talk.kind(j) == "past" or (word in BE and word != "'s"):
            return None
        if word in ("i'll", "we'll"):
            return j + 1
        if word in ("i", "we"):
            g = j + 1
            while g < end and talk.words[g] in flat("adverbs"):
                g += 1
            goes = talk.words[g : g + 1] in (("will",), ("gotta",), ("come",)) or _orders(talk, g)
            return g if goes or (sure and talk.kind(g) == "base") else None
        if word in (".", ";", "but"):
            return None
    return None


def _on_arrival(talk: Talk, k: int, end: int) -> int | None:
    """Return the main clause of "when the coil lands we recover it", "once I've got a helper we'll ..."."""
    if k >= end or talk.words[k] not in ("when", "once", "soon", "as"):
        return None
    if talk.words[k] in ("soon", "as") and talk.words[k : k + 3] not in (("as", "soon", "as"),):
        return None
    ours = k + 1 < end and talk.words[k + 1] in OURS
    for j in range(k + 2, min(end - 1, k + ARRIVES_WITHIN)):
        word = talk.words[j]
        if word in ("i'll", "we'll"):
            return j + 1
        if talk.kind(j) == "past" and not (ours and talk.words[k + 1] in ("i've", "we've")):
            return None
        if word in ("i", "we") and not ours:
            return j if _orders(talk, j + 1) else None
    return None


def _governed(talk: Talk, start: int, end: int) -> int | None:
    """Return the word behind what puts its sentence into the future: "I'd have to", "it'll want"."""
    k = talk.has(start, end, "announced", "governs")
    if k is None:
        return None
    before = talk.words[max(start, k - 2) : k]
    if any(w in ("if", "unless", "whether", "said", "says", "told", "thought") for w in before):
        return None
    return k + talk.begins_with(k, "announced", "governs", end=end)
