"""The written forms of a verb, regular or not, and which form of which verb a word is."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from dictate.vocabulary.load import table, word_set


@dataclass(frozen=True, slots=True)
class Form:
    """One form of a verb: `base`, `past` (also the participle), `ing` or `third`."""

    verb: str
    kind: str


def _regular(verb: str, doubled: bool) -> tuple[str, str, str]:
    """Return past, -ing and -s form of a regular verb."""
    stem = verb
    if verb.endswith("e") and not verb.endswith(("ee", "oe", "ye")):
        past, ing = verb + "d", verb[:-1] + "ing"
    elif verb.endswith("e"):
        past, ing = verb + "d", verb + "ing"
    elif verb.endswith("y") and verb[-2] not in "aeiou":
        past, ing = verb[:-1] + "ied", verb + "ing"
    else:
        if doubled:
            stem = verb + verb[-1]
        past, ing = stem + "ed", stem + "ing"
    if verb.endswith(("s", "x", "z", "ch", "sh")):
        third = verb + "es"
    elif verb.endswith("y") and verb[-2] not in "aeiou":
        third = verb[:-1] + "ies"
    else:
        third = verb + "s"
    return past, ing, third


@cache
def verb_forms() -> dict[str, dict[str, list[str]]]:
    """Return verb -> kind of form -> its written forms, from verbs.toml."""
    data = table("verbs")
    doubled = set(data["doubled"]["verbs"])
    out: dict[str, dict[str, list[str]]] = {}
    for verb in data["regular"]["verbs"]:
        verb = verb.replace("-", "")
        past, ing, third = _regular(verb, verb in doubled)
        out[verb] = {"base": [verb], "past": [past], "ing": [ing], "third": [third]}
    for verb, (past, participle) in data["irregular"].items():
        _, ing, third = _regular(verb, verb in doubled)
        out[verb] = {
            "base": [verb],
            "past": list(dict.fromkeys([past, participle])),
            "ing": [ing],
            "third": [third],
        }
    for verb, extra in data["heard"].items():
        for kind, words in extra.items():
            out[verb][kind] += [w for w in words if w not in out[verb][kind]]
    return out


@cache
def forms_of_word() -> dict[str, Form]:
    """Return written form -> which form of which verb it is; the past wins where a form is both."""
    out: dict[str, Form] = {}
    for kind in ("third", "ing", "base", "past"):
        for verb, forms in verb_forms().items():
            for word in forms[kind]:
                out[word] = Form(verb, kind)
    return out


AMBIGUOUS = word_set("same_past")
"""Forms that are both base and past; the words around them decide."""
