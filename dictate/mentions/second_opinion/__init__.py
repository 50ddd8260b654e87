"""A second opinion on what a number is: two trained judges over the words around it.

    opinions(narration) -> {token at which a number starts: Opinion}, of both, for what doubts a value
    net_opinions(narration) -> the same of the net alone, for what takes it
    judges(narration) -> Judges, what each of the two says for itself, for what weighs them
    told(narration, head) -> {token at which a number starts: Told}, of the encoder alone: its class, its way
                             as an amount of refrigerant, the component or the point it was read on
    told_of_words(narration) -> the same of words that may stand for a value ("nothing", "open")
    begin(narration)         the encoder begins to read beside what else is done
    go_on(last, narration)   what it reads of the same words is taken over

They err in other ways than the grammar of the readers does, and in other ways than each other. The net
knows no order, no scope and no rule, only which words, names of things, units and sizes of numbers stood
near the values of the labelled narrations (`tests/narrations/develop`). The text encoder reads the words in
their order and knows much English, but no trade beyond those narrations and marked snippets. The opinion is
the mean of both. The readers' rules ask the net alone; the encoder judges what they took: what it doubts a
person is asked about, and where it is nearly certain against them it is followed (`by_all_words/`,
`movements/sounds_moved.py`, and `readings.py` for a bare number that nothing took), with a reason to look at
the value. No unit that was said is overruled.

    surroundings    what stands around each number: the features of the net
    net             the trained weights of the net (weights.npz), and what they say
    encoder/        the text encoder
    opinion         the type, and how the two are joined

The weights are data, made by `python -m tests.benchmarks.second_opinion --write` and
`python -m tests.benchmarks.encoder --write`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from concurrent.futures import Future
from dataclasses import dataclass
from typing import Any

from dictate.mentions.narration import Narration
from dictate.mentions.quantities import find_quantities, mass_of
from dictate.mentions.second_opinion import encoder
from dictate.mentions.second_opinion.encoder import NO_STATE
from dictate.mentions.second_opinion.net import trained
from dictate.mentions.second_opinion.opinion import MEASURED, OfNumbers, Opinion, classes_of, mixed
from dictate.mentions.second_opinion.state_words import state_places
from dictate.mentions.second_opinion.surroundings import described, features

NONE = "none"
"""The class of a number that is no value: a count, a name, a time of day."""
ENCODER, OF_FEW_WORDS = 0.8, 0.5
"""The weight of the encoder, the net has the rest: chosen on narrations that neither was trained on.

Of a few words the encoder is too sure, for it learned from whole visits.
"""


def opinions(narration: Narration) -> Mapping[int, Opinion]:
    """Return the opinion of both on every number of a narration, by its first token; computed once."""
    done: Mapping[int, Opinion] | None = narration.found.get("second opinion")
    if done is None:
        classes, starts, by_net = _by_net(narration)
        names, judged = by_encoder(narration)
        weight = ENCODER if len(narration.tokens) >= A_VISIT else OF_FEW_WORDS
        joined = mixed(classes, by_net, names["class"], judged["class"], weight)
        done = _of_numbers(starts, classes, joined)
        narration.found["second opinion"] = done
    return done


def _of_numbers(starts: list[int], classes: list[str], log_shares: Any) -> Mapping[int, Opinion]:
    if not starts:
        return {}
    make = classes_of(tuple(classes)).opinion_of(log_shares)
    return OfNumbers({start: row for row, start in enumerate(starts)}, make)


def net_opinions(narration: Narration) -> Mapping[int, Opinion]:
    """Return the opinion of the net alone, for the readers: what is taken must not hang on what doubts it."""
    done: Mapping[int, Opinion] | None = narration.found.get("opinion of the net")
    if done is None:
        classes, starts, by_net = _by_net(narration)
        done = _of_numbers(starts, classes, by_net)
        narration.found["opinion of the net"] = done
    return done


def _by_net(narration: Narration) -> tuple[list[str], list[int], Any]:
    """Return the classes of the net, where each number starts, and what the net says of it."""
    done: tuple[list[str], list[int], Any] | None = narration.found.get("shares of the net")
    if done is None:
        net = trained()
        around = described(narration, net)
        shares = net.log_shares([seen for _, seen in around])
        done = (net.classes, [number.start for number, _ in around], shares)
        narration.found["shares of the net"] = done
    return done


@dataclass(frozen=True, slots=True)
class Judges:
    """What both judges say of every number: logarithms of the shares of their classes, [number, class]."""

    starts: list[int]
    """The first token of each number."""
    net_names: list[str]
    net: Any
    encoder_names: list[str]
    encoder: Any
    """A number that was not read has a row of nan."""


def judges(narration: Narration) -> Judges:
    """Return what each of the two says for itself."""
    classes, starts, by_net = _by_net(narration)
    names, judged = by_encoder(narration)
    return Judges(starts, classes, by_net, names["class"], judged["class"])


A_VISIT = 60
"""Words and marks from which talk is enough of a visit."""


class Told:
    """What the encoder says of one number by one of its heads: the share of each name."""

    __slots__ = ("best", "names", "share", "shares")

    def __init__(self, names: Sequence[str], shares: Sequence[float], best: int) -> None:
        self.names, self.shares = names, shares
        self.best, self.share = names[best], shares[best]

    def of(self, name: str) -> float:
        """Return the share of a name, 0 for one that the encoder does not know."""
        return self.shares[self.names.index(name)] if name in self.names else 0.0


def told(narration: Narration, head: str) -> Mapping[int, Told]:
    """Return what the encoder says by one of its heads of each number that it read, by its first token.

    Of a few words it says nothing: it learned from whole visits, and is too sure of a sentence on its own.
    """
    done: Mapping[int, Told] | None = narration.found.get(f"told by the encoder: {head}")
    if done is None and len(narration.tokens) < A_VISIT:
        return {}
    if done is None:
        import numpy as np

        _, starts, _ = _by_net(narration)
        names, judged = by_encoder(narration)
        read = np.flatnonzero(~np.isnan(judged[head][:, 0])).tolist() if starts else []
        shares, its_names = np.exp(judged[head]), names[head]

        def made(row: int) -> Told:
            return Told(its_names, shares[row].tolist(), int(shares[row].argmax()))

        done = OfNumbers({starts[n]: n for n in read}, made)
        narration.found[f"told by the encoder: {head}"] = done
    return done


def by_encoder(narration: Narration) -> tuple[dict[str, list[str]], dict[str, Any]]:
    """Return the names of the encoder's heads, and what it says of each number: `encoder.log_shares`."""
    done: dict[str, Any] | None = narration.found.get("shares of the encoder")
    if done is None:
        done = encoder.log_shares(narration, _read(narration))
        narration.found["shares of the encoder"] = done
    return encoder.trained().names, done


def told_of_words(narration: Narration) -> Mapping[str, Mapping[tuple[int, int], Told]]:
    """Return what the encoder says by its heads of each word that may stand for a value, by its tokens.

    The head "state" says what was read, `NO_STATE` of other talk. Of a few words it says nothing.
    """
    done: dict[str, dict[tuple[int, int], Told]] | None = narration.found.get("told of words")
    if done is None:
        import numpy as np

        done = {}
        places = state_places(narration) if len(narration.tokens) >= A_VISIT else []
        if places:
            names, judged = words_by_encoder(narration, places)
            for head in ("state", "component", "point"):
                done[head] = {
                    place: Told(names[head], row.tolist(), int(row.argmax()))
                    for place, row in zip(places, np.exp(judged[head]), strict=True)
                    if row[0] == row[0]
                }
        narration.found["told of words"] = done
    return done


def words_by_encoder(
    narration: Narration, places: Sequence[tuple[int, int]]
) -> tuple[dict[str, list[str]], dict[str, Any]]:
    """Return the names of the encoder's heads, and what it says of words: `encoder.log_shares_of_words`."""
    return encoder.trained().names, encoder.log_shares_of_words(_read(narration), places)


def steps_by_encoder(narration: Narration, stretches: Sequence[tuple[int, int]]) -> tuple[list[str], Any]:
    """Return the names of the steps, and how likely each is told where: `encoder.log_odds_of_steps`."""
    return encoder.trained().steps, encoder.log_odds_of_steps(_read(narration), stretches)


def parts_by_encoder(
    narration: Narration, places: Sequence[tuple[int, int]]
) -> tuple[list[str], list[list[float]]]:
    """Return what can become of a part, and the shares of it for the parts at the tokens [start, end).

    The row of a part is empty where the encoder says nothing of it.
    """
    import numpy as np

    names = encoder.trained().parts
    if not places:
        return names, []
    shares = np.exp(encoder.log_shares_of_parts(_read(narration), places))
    return names, [[] if row[0] != row[0] else row for row in shares.tolist()]


def begin(narration: Narration) -> None:
    """Have the encoder begin to read, beside what else is done with the narration until somebody asks it.

    Of a few words it is not asked by everybody: it reads them when it is.
    """
    if len(narration.tokens) >= A_VISIT:
        narration.found["read by the encoder"] = encoder.read_beside(narration, _wanted(narration))


def go_on(last: Narration, narration: Narration) -> None:
    """Take over what the encoder reads of the same words."""
    if "read by the encoder" in last.found:
        narration.found["read by the encoder"] = last.found["read by the encoder"]


def _read(narration: Narration) -> encoder.Read:
    done: Future[encoder.Read] | None = narration.found.get("read by the encoder")
    if done is None:
        done = encoder.read_beside(narration, _wanted(narration))
        narration.found["read by the encoder"] = done
    return done.result()


def _wanted(narration: Narration) -> list[float]:
    """Return how much is wanted to know of each number: as unsure as the net is of it; all of a weight."""
    import numpy as np

    _, starts, by_net = _by_net(narration)
    if not starts:
        return []
    weights = {t for q in find_quantities(narration) if mass_of(q) is not None for t in range(q.start, q.end)}
    unsure = (1.0001 - np.exp(by_net.max(axis=1))).tolist()
    return [1.0 if start in weights else own for start, own in zip(starts, unsure, strict=True)]


__all__ = [
    "A_VISIT",
    "MEASURED",
    "NONE",
    "NO_STATE",
    "Judges",
    "Opinion",
    "Told",
    "begin",
    "features",
    "go_on",
    "judges",
    "net_opinions",
    "opinions",
    "parts_by_encoder",
    "steps_by_encoder",
    "told",
    "told_of_words",
    "words_by_encoder",
]
