"""The trained text encoder: windows of word pieces -> what each number may be.

Two transformers of six layers read a window; the mean of what they say of the pieces of a number, with how
the number was said and its unit, gives by one linear layer the shares of what each head can say: its class
(those of `net.py`), whether it tells an amount of refrigerant that went in or came out, the component and the
point it was read on. The mean and the largest of what it says of the pieces of a stretch of talk give by
another how likely each step of the work is told there; the mean over the name of a part what became of it.
The weights of the layers are signed bytes with one scale a row, and every piece that is read is brought to
bytes by itself: so what is said of a number does not hang on which windows are read at once.
"""

from __future__ import annotations

import io
import json
from collections.abc import Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from functools import cache
from importlib import resources
from typing import Any

from dictate.errors import RecordError
from dictate.mentions.second_opinion.encoder.windows import Row, Window, windows
from dictate.mentions.second_opinion.encoder.word_pieces import WordPieces

FILES = ("config.json", "vocabulary.json")
"""The form of the layers, and the vocabulary: the same for all nets."""
NETS = ("first.bin", "second.bin")
"""The layers of each net, whose words are taken together: trained for other aims, they err differently."""
LAYERS = "model.bin"
"""The name by which CTranslate2 asks for layers."""
HEAD = "head.npz"
"""What is behind the layers: what the heads can say, what is known of a number, and the weights."""
HEADS = ("class", "way", "component", "point", "stage", "role", "state")
STEPS, PARTS = "step", "part"
"""The steps of the work that a stretch of talk can tell; what can become of a part that is named."""
NO_WAY = "none"
"""The way of a number that tells no amount of refrigerant that was moved."""
NO_STATE = "none"
"""The state of a word that stands for no value."""
WORD = "word"
"""What is known of a word that may stand for a value."""
SAID = ("pronoun", "refrigerant", "written")
_AT_ONCE = 4
"""Windows that are read at once, of about the same length: more are no faster."""
_SIDE_BY_SIDE = 2
"""Batches that are read at the same time, each by one of the nets, where the machine has a second core."""
_FEWEST = 6
"""Windows that are read of talk of an hour and more, some 1,000 words: those in which most is wanted."""
_AN_HOUR, _AS_LONG = 13_000, 400
"""Pieces of an hour's talk, and those that all the rules read in the time in which a window is read: so much
is read of a shorter visit that it takes no longer than an hour's, which is everything up to half an hour."""
_UNFIT = RecordError("The weights of the text encoder do not fit together.", "Reinstall the package.")


class Encoder:
    """The layers, the vocabulary and the head, as files hold them."""

    def __init__(self, files: Mapping[str, bytes]) -> None:
        import ctranslate2
        import numpy as np

        try:
            vocabulary = json.loads(files["vocabulary.json"])
            self.pieces = WordPieces(vocabulary)
            with np.load(io.BytesIO(files[HEAD]), allow_pickle=False) as head:
                side, *told = (
                    bytes(head[name]).decode("utf-8").split("\n") for name in ("side_names", *HEADS)
                )
                self.names = dict(zip(HEADS, told, strict=True))
                wanted = int(head["pieces"])
                self.head, self.bias, self.side = (
                    head[name].astype("float32") for name in ("head", "bias", "side")
                )
                self.steps, self.parts = (
                    bytes(head[name]).decode("utf-8").split("\n") for name in (STEPS, PARTS)
                )
                self.of_steps, self.bias_of_steps, self.of_parts, self.bias_of_parts = (
                    head[name].astype("float32")
                    for name in ("of_steps", "bias_of_steps", "of_parts", "bias_of_parts")
                )
            # The layers are read from memory, so that a package in a zip file works as well.
            able = ctranslate2.get_supported_compute_types("cpu")
            self.nets = [
                ctranslate2.Encoder(
                    "encoder",
                    device="cpu",
                    compute_type="int8" if "int8" in able else "default",
                    inter_threads=_SIDE_BY_SIDE,
                    intra_threads=1,  # more for one batch wait busily for each other
                    files={**{name: files[name] for name in FILES}, LAYERS: files[net]},
                )
                for net in NETS
            ]
        except (KeyError, ValueError, RuntimeError) as error:
            raise _UNFIT from error
        self.columns = {name: i for i, name in enumerate(side)}
        self._sides: dict[tuple[str, ...], Any] = {}
        """What is added to the scores for what is known of a number, by the names of it: few in all."""
        columns, width = sum(map(len, self.names.values())), self.head.shape[0]
        steps, parts = len(self.steps), len(self.parts)
        fit = [x.shape for x in (self.head, self.bias, self.side)] == [
            (width, columns), (columns,), (len(side), columns)
        ] and [x.shape for x in (self.of_steps, self.bias_of_steps, self.of_parts, self.bias_of_parts)] == [
            (2 * width, steps), (steps,), (width, parts), (parts,)
        ]  # fmt: skip
        if not fit or NO_WAY not in self.names["way"] or len(vocabulary) != wanted:
            raise _UNFIT

    def read(self, row: Row, wanted: Sequence[float]) -> list[tuple[Window, Any]]:
        """Return the windows that are read, each with what the layers say of its pieces, [piece, width].

        `wanted` says how much somebody wants to know of each number; of very long talk those windows are read
        in which most is wanted, as many as there is time for. What the nets say stands one behind the other.
        """
        most = _FEWEST + max(0, _AN_HOUR - len(row.pieces)) // _AS_LONG
        read = sorted(windows(row), key=lambda w: -sum(wanted[w.begin : w.end]))[:most]
        read.sort(key=lambda w: w.last - w.first)
        return self._windows_read(row, read)

    def _windows_read(self, row: Row, read: Sequence[Window]) -> list[tuple[Window, Any]]:
        import numpy as np

        batches = [read[i : i + _AT_ONCE] for i in range(0, len(read), _AT_ONCE)]
        # A batch is read without the interpreter's lock.
        with ThreadPoolExecutor(_SIDE_BY_SIDE) as side_by_side:
            said = [
                [side_by_side.submit(self._read, net, row, some) for net in self.nets] for some in batches
            ]
            return [
                pair
                for some, by_nets in zip(batches, said, strict=True)
                for pair in zip(some, np.concatenate([of.result() for of in by_nets], axis=2), strict=True)
            ]

    def judge(
        self, row: Row, read: Sequence[tuple[Window, Any]], known: Sequence[Sequence[str]]
    ) -> dict[str, Any]:
        """Return the logarithms of the shares by head, [number, name].

        They are not numbers (nan) for what is in no window that was read.
        `known` names for each number what is known of it beside its words: `known_of`.
        """
        import numpy as np

        out = np.full((len(row.numbers), len(self.bias)), np.nan, dtype="float32")
        for window, said in read:
            for n in range(window.begin, window.end):
                # One by one: a product of whole matrices wakes threads, which then wait busily for more.
                scores = _mean(said, *window.place(row.numbers[n])) @ self.head + self.bias
                out[n] = scores + self._side(tuple(known[n]))
        return self._parted(out)

    def judge_words(
        self, row: Row, read: Sequence[tuple[Window, Any]], words: Sequence[tuple[int, int]]
    ) -> dict[str, Any]:
        """Return the logarithms of the shares by head of words that may stand for a value, as `judge`.

        They are the tokens [start, end).
        """
        import numpy as np

        out = np.full((len(words), len(self.bias)), np.nan, dtype="float32")
        places = [(row.tokens[start], row.tokens[end]) for start, end in words]
        side = self._side((WORD,))
        for window, said in read:
            for k, place in enumerate(places):
                if window.judges(place):
                    out[k] = _mean(said, *window.place(place)) @ self.head + self.bias + side
        return self._parted(out)

    def judge_steps(
        self, row: Row, read: Sequence[tuple[Window, Any]], stretches: Sequence[tuple[int, int]]
    ) -> Any:
        """Return the logarithms of the odds of each step in each stretch, [stretch, step].

        A stretch is the tokens [start, end); the row of one in no window that was read is not a number (nan).
        """
        import numpy as np

        out = np.full((len(stretches), len(self.steps)), np.nan, dtype="float32")
        places = [(row.tokens[start], row.tokens[end]) for start, end in stretches]
        for window, said in read:
            for k, place in enumerate(places):
                if window.judges(place):
                    first, last = window.place(place)
                    most = np.maximum.reduce(said[first:last], axis=0)
                    all_of_it = np.concatenate([_mean(said, first, last), most])
                    out[k] = all_of_it @ self.of_steps + self.bias_of_steps
        return out

    def judge_parts(
        self, row: Row, read: Sequence[tuple[Window, Any]], named: Sequence[tuple[int, int]]
    ) -> Any:
        """Return the logarithms of the shares of what became of each part, [part, name], as `judge_steps`.

        A part is named at the tokens [start, end).
        """
        import numpy as np

        out = np.full((len(named), len(self.parts)), np.nan, dtype="float32")
        places = [(row.tokens[start], row.tokens[end]) for start, end in named]
        for window, said in read:
            for k, place in enumerate(places):
                if window.judges(place):
                    mean = _mean(said, *window.place(place))
                    out[k] = mean @ self.of_parts + self.bias_of_parts
        return _as_shares(out)

    def _parted(self, scores: Any) -> dict[str, Any]:
        """Return scores of all heads, [number, name], as the logarithms of the shares of each."""
        parted, begin = {}, 0
        for name, of in self.names.items():
            parted[name] = _as_shares(scores[:, begin : begin + len(of)])
            begin += len(of)
        return parted

    def _side(self, known: tuple[str, ...]) -> Any:
        """Return what is added to all scores of a number for what is known of it."""
        side = self._sides.get(known)
        if side is None:
            columns = [self.columns[name] for name in known if name in self.columns]
            side = self._sides[known] = self.side[columns].sum(axis=0)
        return side

    def _read(self, net: Any, row: Row, some: Sequence[Window]) -> Any:
        """Return what a net says of every piece: [window, piece, width]."""
        import numpy as np

        ids = [[self.pieces.begin, *row.pieces[w.first : w.last], self.pieces.end] for w in some]
        types = [[0, *row.types[w.first : w.last], 0] for w in some]
        return np.array(net.forward_batch(ids, token_type_ids=types).last_hidden_state)


def _mean(said: Any, first: int, last: int) -> Any:
    """Return the mean of the rows [first, last): `mean(axis=0)` without its long way to it."""
    import numpy as np

    if last - first == 1:
        return said[first]
    mean = np.add.reduce(said[first:last], axis=0)
    mean /= last - first
    return mean


def _as_shares(scores: Any) -> Any:
    """Return scores, [number, class], as logarithms of shares that add up to one for each number."""
    import numpy as np

    lower = scores - scores.max(axis=1, keepdims=True)
    return lower - np.log(np.exp(lower).sum(axis=1, keepdims=True))


def known_of(form: str, unit: str, holds: Mapping[str, bool]) -> list[str]:
    """Return the names of what is known of a number beside its words: form, unit, what of `SAID` holds."""
    return [f"form {form}", f"unit {unit}", *(name for name in SAID if holds[name])]


@cache
def trained() -> Encoder:
    """Return the encoder with the weights of the package; they are read once."""
    folder = resources.files(__package__) / "weights"
    try:
        return Encoder({name: (folder / name).read_bytes() for name in (*FILES, *NETS, HEAD)})
    except FileNotFoundError:
        raise RecordError("The weights of the text encoder are missing.", "Reinstall the package.") from None


__all__ = [
    "FILES",
    "HEAD",
    "HEADS",
    "LAYERS",
    "NETS",
    "NO_STATE",
    "NO_WAY",
    "PARTS",
    "SAID",
    "STEPS",
    "WORD",
    "Encoder",
    "known_of",
    "trained",
]
