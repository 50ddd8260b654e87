"""Past forms that tell of no work: what the machine did, how a thing was found, what it is like."""

from __future__ import annotations

from dictate.mentions.tense.chains import like_a_noun, previous_verb
from dictate.mentions.tense.talk import Talk
from dictate.mentions.tense.vocabulary import COMPOUND, OBJECTS, OURS, flat


def of_itself(talk: Talk, i: int) -> bool:
    """Tell whether the thing did it by itself ("the valve adjusted itself", "closed on its own")."""
    _, end = talk.sentence(i)
    for k in range(i + 1, min(end, i + 5)):
        if talk.words[k] in ("itself", "themselves", "herself"):
            return True
        if talk.words[k - 1 : k + 2] in (
            ("on", "its", "own"),
            ("on", "their", "own"),
            ("on", "her", "own"),
        ):
            return True
        if talk.words[k] in (",", "and", "but", ";"):
            return False
    return False


def machine_did(talk: Talk, i: int, g: int, start: int) -> bool:
    """Tell whether the subject of an active past form is the machine ("it shut off", "water filled it").

    Who works says "I" or leaves himself out; "it" and "which" before an active form are never he.
    """
    form = talk.forms.get(talk.words[i])
    if form is None or form.kind != "past" or form.verb in flat("lists", "machine_acts"):
        return False
    word = talk.words[g]
    if word in ("it", "she", "which", "itself"):
        return g == start or talk.words[g - 1] in flat("lists", "before_subject")
    if word == "that" and g > start and talk.words[g - 1] in ("and", ",", "so", "but", "because"):
        return True  # "a mouse chewed the cord and that cut the power"
    follows = talk.words[i + 1] if i + 1 < len(talk.words) else "."
    takes = follows in ("her", "power") or (
        follows in OBJECTS and follows not in ("in", "out", "check", "checked")
    )
    if word in ("and", "then") and (
        not takes or form.verb in ("kill", "trip", "cut", "knock", "drop", "shut", "clear", "melt", "empty")
    ):
        previous = previous_verb(talk, g, start)
        if previous is None or "," in talk.words[previous:g] or talk.kind(previous) != "past":
            return False
        before = talk.skip_back(previous - 1, start)
        if before >= start and takes and talk.words[before] in flat("lists", "machine_agents"):
            return True
        if takes or before < start or talk.words[before] not in ("it", "she", "which"):
            return False
        return before == start or talk.words[before - 1] in flat("lists", "before_subject")
    if takes and follows not in ("all", "both", "old", "new") and word in flat("lists", "machine_agents"):
        k = g - 1
        while k >= start and talk.words[k] not in flat("lists", "before_subject"):
            if talk.kind(k) is not None and not like_a_noun(talk, k, start):
                return False
            k -= 1
        return g - k <= 4
    return False


def describes(talk: Talk, i: int, start: int) -> bool:
    """Tell whether a participle only describes a noun ("an old brazed repair")."""
    first = i - 1 if i > start and talk.words[i - 1] in COMPOUND else i
    if first <= start or talk.words[first - 1] not in flat("lists", "before_described"):
        return False
    if first - 2 >= start and talk.words[first - 2] == "with":
        return False  # "replaced it with a brazed union": this is how it was done
    after = talk.words[i + 1] if i + 1 < len(talk.words) else "."
    return after.isalpha() and after not in flat("lists", "after_verbs") and talk.kind(i + 1) is None


def only_matter(talk: Talk, i: int) -> bool:
    """Tell whether a participle at the head belongs to a subject ("recovered gas must go")."""
    if i + 1 >= len(talk.words) or not talk.w.opens(i) or talk.words[i + 1] in flat("lists", "after_verbs"):
        return False
    _, end = talk.sentence(i)
    return any(
        talk.words[k] in ("has", "have", "must", "should", "will", "goes", "needs", "gets", "can", "costs")
        for k in range(i + 2, min(end, i + 4))
    )


def found_so(talk: Talk, i: int, start: int) -> bool:
    """Tell whether a participle tells how a thing was found ("found the plug pulled out")."""
    follows = talk.words[i + 1] if i + 1 < len(talk.words) else "."
    if follows in OBJECTS and follows not in ("in", "out", "all", "old", "new"):
        return False
    for j in range(i - 1, max(start, i - 7) - 1, -1):
        word = talk.words[j]
        if word in (",", ";", "and", "but", "so", "then") or word in OURS:
            return False
        if word in ("found", "noticed", "saw", "spotted", "see"):
            return j < i - 1
        if talk.kind(j) == "past" and word not in ("got",):
            return False
    return False
