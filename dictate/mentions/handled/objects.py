"""The parts named behind a verb."""

from __future__ import annotations

from dictate.mentions.handled.rows import (
    behind_apposition,
    behind_exchange,
    behind_what_is_not,
    behind_while,
    is_mark,
    letters_of_a_mark,
    like_the_old_one,
    more_follows,
    only_a_size,
    only_numbers,
    points_at,
    rated_part_behind,
    rating_alone,
    sized_one,
    tells_why,
)
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import DETERMINERS, RATINGS, flat_adverbs, part_words
from dictate.mentions.patterns import NUMBER_WORDS
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set

PRONOUNS = word_set("pronouns")
NO_NOUN = word_set("no_nouns")


def _indefinite(talk: Talk, i: int, k: int) -> bool:
    """Tell whether an article or a verb stands right before word k, where the objects begin at word i."""
    return k == i or talk.words[k - 1] in ("a", "an", "another")


_THEM = (("them",), ("those",), ("these",))


def _counts(word: str) -> bool:
    return word in NUMBER_WORDS or word[:1].isdigit() or word in ("both", "all", "each")


def objects_behind(
    talk: Talk, i: int, end: int, action: str
) -> tuple[list[Thing], bool, int, bool, str | None]:
    """Return the things named from word i on, whether new, their end, a pronoun, other nouns."""
    things: list[Thing] = []
    new = pronoun = False
    skipped = 0
    last = i
    np: list[str] = []
    k = i
    expecting = True
    while k < end:
        word = talk.words[k]
        thing = talk.thing_from(k)
        if thing is not None and things and only_a_size(talk, thing):
            break  # "a new drier, three eighths flare"; "a contactor, 24 volt coil"
        if (
            thing is not None
            and not things
            and talk.words[thing.end : thing.end + 1] == ("one",)
            and talk.words[thing.end + 1 : thing.end + 2]
            and talk.words[thing.end + 1] not in word_set("counted_by_one")
        ):
            pronoun = new = True  # "brazed in a fifteen gram copper one"
            last = thing.end + 1
            break
        if thing is not None and (expecting or not things):
            if things and thing.modifier:
                break
            nxt = talk.words[thing.end] if thing.end < end else ""
            # "the compressor contactor" is one thing; "compressor side of the contactor" is not the
            # compressor.
            following = talk.thing_from(thing.end)
            if following is not None and not following.modifier:
                k = thing.end
                continue
            if not (nxt == "setting" and action == "adjusted") and nxt in word_set("part_of_part"):
                break
            if things and talk.words[thing.end : thing.end + 3] == ("from", "the", "old"):
                break  # "new motor, ten watts, blade from the old"
            things.append(thing)
            k = last = thing.end
            expecting = False
            continue
        if word == "of" and not things and talk.words[k - 1] == "out" and action == "removed":
            break  # "pulled out of the wall socket": where it was
        if word == "," and things and not expecting and action in ("replaced", "installed"):
            joiner = behind_apposition(talk, k, end)
            if joiner is not None:
                k = joiner
                word = talk.words[k]
        if word == "," and things and not expecting:
            # "the contactor, 25 amp, and the overload": a rating stands between two things
            k2 = k + 1
            while (
                k2 < end
                and k2 - k < 7
                and (
                    talk.words[k2] in NUMBER_WORDS
                    or talk.words[k2][0].isdigit()
                    or talk.words[k2] in RATINGS
                    or letters_of_a_mark(talk, k2)
                )
            ):
                k2 += 1
            if (
                k2 > k + 1
                and k2 < end
                and talk.words[k2] in (",", "and")
                and more_follows(
                    talk,
                    k2
                    + (1 if talk.words[k2] == "and" else 2 if talk.words[k2 + 1 : k2 + 2] == ("and",) else 1),
                    end,
                )
            ):
                k = k2 + (1 if talk.words[k2 + 1 : k2 + 2] == ("and",) and talk.words[k2] == "," else 0)
                word = talk.words[k]
        if word in ("for", "with") and things and action == "replaced":
            exchanged = behind_exchange(talk, k, end)
            if exchanged is not None and talk.words[exchanged : exchanged + 1] in (("and",), (",",)):
                k, word = exchanged, talk.words[exchanged]  # "for a 40 amp one and the heater"
        if word == "," and things and tells_why(talk, k + 1, end):
            break  # "replaced the timer, the clock motor had quit"
        if word in (",", "and", "plus", "&", "+"):
            if not things and not pronoun and not np:
                if word == ",":
                    break
                break
            if not more_follows(talk, k + 1, end):
                break
            expecting = True
            skipped = 0
            k += 1
            continue
        if word in (".", ";", ":", "?", "!", "(", ")"):
            break
        if (
            word in ("that", "this", "those")
            and not things
            and any(talk.thing_from(j) is not None for j in range(k + 1, min(end, k + 5)))
            and (k + 1 < end and talk.words[k + 1] not in (",", ".", "and", "with", "one", "too"))
        ):
            k += 1
            continue
        if word == "while" and things and expecting and (aside := behind_while(talk, k, end)) is not None:
            k = aside  # "the TXV, the drier, and while I was there, the sight glass"
            continue
        one_of = talk.words[k + 1 : k + 3] in (("of", "the"), ("of", "those")) and talk.thing_from(k + 3)
        if things and expecting and one_of and (word in NUMBER_WORDS or word in ("one", "both")):
            k += 3  # "both gaskets and one of the hinges"
            continue
        if word in ("that", "this", "those", "these") and things and expecting and points_at(talk, k, end):
            k += 1  # "the switch and that fan motor"
            continue
        if word == "not" and things:
            behind = behind_what_is_not(talk, k, end)
            if behind is None:
                break
            k = behind  # "a shaft seal kit, not the whole compressor, O-rings"
            expecting = True
            continue
        if word == "of" and not things and talk.words[k + 1 : k + 2] in _THEM and _counts(talk.words[k - 1]):
            pronoun = True  # "changed all four of them"
            last = k + 2
            break
        if (
            word in ("both", "all")
            and not things
            and k + 1 < end
            and talk.words[k + 1] not in (",", ".", ";", ":", "and", "out", "too", "with", "of", "in")
        ):
            k += 1
            continue
        if (
            not things
            and not np
            and expecting
            and action in ("installed", "replaced")
            and (word in NUMBER_WORDS or word[0].isdigit())
            and word not in ("point", "half", "quarter", "one")
            and talk.words[i - 1] not in ("set", "added", "add")
            and "back" not in talk.words[i - 2 : k]  # "put back the fourteen and a half": an amount
            and only_numbers(talk, k, end)
        ):
            pronoun = new = True  # "put in a thirty five seven five, four forty"
            last = k + 1
            break
        if word in word_set("sets") and not things and talk.words[k + 1 : k + 2] == ("of",):
            k += 2  # "a new pair of elements"
            continue
        like = None if things or np or action not in ("installed", "replaced") else like_the_old_one(talk, k)
        if like is not None:
            pronoun, new = True, True  # "took it out and put in the same thing"
            last = like
            break
        if (
            word in word_set("sets")
            and not things
            and expecting
            and action in ("installed", "replaced")
            and not any(talk.thing_from(j) is not None for j in range(k + 1, min(end, k + 4)))
        ):
            pronoun = True
            last = k + 1
            break
        rated = (
            None if things or np or action not in ("installed", "replaced") else rating_alone(talk, k, end)
        )
        if rated is not None and (new or _indefinite(talk, i, k)):
            pronoun = new = True  # "put in a two hundred watt where the old one was a one fifty"
            last = rated
            break
        if (
            not things
            and not np
            and action in ("installed", "replaced")
            and talk.words[k - 1] in ("a", "an")
            and talk.words[k + 1 : k + 2] == ("one",)
            and word.isalpha()
            and talk.words[k + 2 : k + 3]
            and talk.words[k + 2] in word_set("behind_rating_alone")
        ):
            pronoun = new = True  # "put in a replaceable one"
            last = k + 2
            break
        sized = not things and (word in NUMBER_WORDS or word[0].isdigit())
        if sized and (size_end := sized_one(talk, k, end)) is not None:
            pronoun = new = True  # "put a one quarter inch one in"
            last = size_end
            break
        if (
            word in PRONOUNS
            and not things
            and not np
            and not (
                word == "one"
                and talk.words[k + 1 : k + 2]
                and (
                    talk.words[k + 1] in word_set("counted_by_one")
                    or talk.words[k + 1] in ("new", "replacement", "spare", "fresh")
                    or talk.thing_from(k + 1) is not None
                    or rated_part_behind(talk, k + 1, end)
                )
            )
            and (word != "that" or k + 1 >= end or talk.words[k + 1] in word_set("behind_that_for_a_part"))
        ):
            pronoun = True
            last = k + 1
            k += 1
            if k < end and talk.words[k] in word_set("verb_particles"):
                k += 1
            break
        if new and not things and not np and is_mark(word):
            pronoun = True  # "put on a new BX62"
            last = k + 1
            break
        if (
            word == "number"
            and not things
            and not np
            and (talk.words[k + 1] in NUMBER_WORDS or talk.words[k + 1].isdigit())
            and (k + 2 == len(talk.words) or talk.words[k + 2] in word_set("behind_part_number"))
        ):
            pronoun = True  # "changed number four"
            last = k + 2
            break
        if word in part_words("plain_new") and expecting and word not in ("one", "right", "correct"):
            new = True
            follows = talk.words[k + 1] if k + 1 < end else ""
            alone = word == "another" and follows in (",", ".", "from", "off", "and")
            alone = alone or (word == "new" and k == i and follows in (",", ".", ";"))  # "fitted new"
            counts = talk.words[k + 1 : k + 2] == ("one",) and talk.words[k + 2 : k + 3] != ()
            counts = counts and talk.words[k + 2] in word_set("counted_by_one")  # "new one inch filter"
            if k + 1 < end and (alone or (talk.words[k + 1] in ("one", "ones") and not counts)):
                pronoun = True
                last = k + 1 if word == "new" and alone else k + 2
                break
        elif things and not expecting and word in word_set("part_tails") and more_follows(talk, k + 2, end):
            k += 1
            continue
        elif things and not expecting:
            break
        elif word in part_words("stop") or (
            word in part_words("soft_stop") and (things or not (k == i or np or skipped))
        ):
            if word == "it" and not things:
                pronoun = True
                last = k + 1
            break
        elif word in ("on", "of", "in") and action in ("replaced", "installed", "removed") and np:
            # "the coil on the harvest valve": what stands before is the thing.
            k2 = k + 1
            while k2 < end and talk.words[k2] in DETERMINERS:
                k2 += 1
            whose = talk.thing_from(k2)
            if whose is not None and np[-1] in ("coil", "coils"):
                things.append(Thing(k2, whose.end, whose.name, f"{whose.name} coil"))
                last = whose.end
            break
        elif (
            talk.scopes.kind(k) in ("past", "third")
            and word not in word_set("participle_adjectives")
            and word not in DETERMINERS
        ):
            break
        if word not in DETERMINERS and word not in word_set("verb_particles"):
            if word not in part_words("plain_new") and word not in word_set("part_adjectives"):
                np.append(word)
            skipped += 1
        if skipped > 7:
            break
        k += 1
    name = None
    np = [w for w in np if w not in flat_adverbs()]
    if np and not things and all(w.isalpha() for w in np) and 1 <= len(np) <= 3 and action == "replaced":
        noun = " ".join(np)
        if (
            np[-1] not in NO_NOUN
            and np[0] not in NO_NOUN
            and np[-1] not in part_words("no_part")
            and np[-1] not in NUMBER_WORDS
            and np[0] not in ("to", "my", "your")
            and not any(talk.scopes.forms.get(w) for w in np[:-1])
        ):
            name = noun
    return things, new, last, pronoun, name
