"""What the encoder says of the narrations of `develop/` when it was not trained on them, kept in a file.

Training takes minutes on a graphics card, so the other benchmarks, which must not read a narration with an
encoder that knows its labels, take these instead. A number is found again by its narration, its words and
the words close around it, so that a text may change elsewhere; a number that is not found has no row. The
likeliest classes of each number are kept, and what is left of its shares is spread over the others. The same
is kept of the words that may stand for a value, and of the steps that each stretch of talk tells; the ones that
are not kept are as good as never told there.
"""

from __future__ import annotations

import zlib
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import Any

from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import find_numbers

FILE = Path(__file__).with_name("out_of_fold.npz")
_KEPT = 6
"""How many of the likeliest names of each head are kept."""
_BEFORE, _BEHIND = 4, 3
_LEAST = 1e-6
NEVER = -15.0
"""The logarithm of the odds of a step that is not told."""

OF_WORDS = ("state", "component", "point")
"""The heads that are asked of words that may stand for a value."""

Heads = dict[str, Any]
"""The logarithms of shares by head, [number, name]."""


class Stored:
    """The kept shares of the numbers, and the odds of the steps, by what finds a number or a stretch again."""

    def __init__(
        self,
        names: dict[str, list[str]],
        keys: Any,
        top: Heads,
        logs: Heads,
        steps: tuple[list[str], Any, Any, Any],
        words: tuple[Any, Heads, Heads],
    ) -> None:
        self.word_keys = [int(key) for key in words[0]]
        self._word_place = {key: i for i, key in enumerate(self.word_keys)}
        self._of_words = words[1:]
        self.steps, step_keys, self._step_top, self._step_odds = steps
        self.step_keys = [int(key) for key in step_keys]
        self._step_place = {key: i for i, key in enumerate(self.step_keys)}
        self.names = names
        self.keys = [int(key) for key in keys]
        self.place = {key: i for i, key in enumerate(self.keys)}
        self._top, self._logs = top, logs

    def of(self, name: str, narration: Narration) -> Heads:
        """Return the logarithms of the shares of every number, [number, name]; nan where it is not found."""
        import numpy as np

        keys = keys_of(name, narration)
        found = [n for n, key in enumerate(keys) if key in self.place]
        out = {}
        for head, names in self.names.items():
            out[head] = np.full((len(keys), len(names)), np.nan, dtype="float32")
            out[head][found] = self._wide(head, [self.place[keys[n]] for n in found])
        return out

    def words_of(self, name: str, narration: Narration, places: Sequence[tuple[int, int]]) -> Heads:
        """Return the logarithms of the shares of the words at places, [word, name], as `of`."""
        import numpy as np

        keys = keys_of_places(name, narration.lowers, places)
        found = [n for n, key in enumerate(keys) if key in self._word_place]
        rows = [self._word_place[keys[n]] for n in found]
        out = {}
        for head in OF_WORDS:
            out[head] = np.full((len(keys), len(self.names[head])), np.nan, dtype="float32")
            out[head][found] = self._wide(head, rows, self._of_words)
        return out

    def knows(self, name: str, narration: Narration) -> bool:
        """Tell whether anything is kept of a narration."""
        return any(key in self.place for key in keys_of(name, narration))

    def steps_of(self, name: str, narration: Narration, stretches: Sequence[tuple[int, int]]) -> Any:
        """Return the logarithms of the odds of every step, [stretch, step]; nan where it is not found."""
        import numpy as np

        out = np.full((len(stretches), len(self.steps)), np.nan, dtype="float32")
        for i, key in enumerate(keys_of_stretches(name, narration.lowers, stretches)):
            if key in self._step_place:
                out[i] = self._wide_odds([self._step_place[key]])[0]
        return out

    def odds(self) -> Any:
        """Return the logarithms of the odds of all stretches, [stretch, step], in the order of the keys."""
        return self._wide_odds(list(range(len(self.step_keys))))

    def _wide_odds(self, rows: Sequence[int]) -> Any:
        import numpy as np

        out = np.full((len(rows), len(self.steps)), NEVER, dtype="float32")
        np.put_along_axis(
            out, self._step_top[rows].astype(int), self._step_odds[rows].astype("float32"), axis=1
        )
        return out

    def shares(self, head: str) -> Any:
        """Return the logarithms of the shares of all numbers, [number, name], in the order of the keys."""
        return self._wide(head, list(range(len(self.keys))))

    def word_shares(self, head: str) -> Any:
        """Return the logarithms of the shares of all words, [word, name], in the order of their keys."""
        return self._wide(head, list(range(len(self.word_keys))), self._of_words)

    def _wide(self, head: str, rows: Sequence[int], of: tuple[Heads, Heads] | None = None) -> Any:
        """Return the shares of some rows over all names of a head."""
        import numpy as np

        tops, kept = of or (self._top, self._logs)
        logs = kept[head][rows].astype("float32")
        left = np.maximum(1 - np.exp(logs).sum(axis=1, keepdims=True), _LEAST)
        size = len(self.names[head])
        out = np.repeat(np.log(left / max(size - logs.shape[1], 1)), size, axis=1)
        np.put_along_axis(out, tops[head][rows].astype(int), logs, axis=1)
        return out


def keys_of(name: str, narration: Narration) -> list[int]:
    """Return for every number of a narration what finds it again: 64 bits of its name, words and neighbours."""
    return keys_of_places(name, narration.lowers, [(x.start, x.end) for x in find_numbers(narration)])


def keys_of_places(name: str, words: Sequence[str], places: Sequence[tuple[int, int]]) -> list[int]:
    """Return for the tokens [start, end) of each place what finds it again, as `keys_of`."""
    seen: dict[int, int] = {}
    out = []
    for start, end in places:
        near = (words[max(0, start - _BEFORE) : start], words[start:end], words[end : end + _BEHIND])
        text = "\n".join([name, *(" ".join(some) for some in near)])
        key = _bits(text)
        seen[key] = seen.get(key, 0) + 1
        out.append(key if seen[key] == 1 else _bits(f"{text}\n{seen[key]}"))
    return out


def keys_of_stretches(name: str, tokens: Sequence[str], stretches: Sequence[tuple[int, int]]) -> list[int]:
    """Return for every stretch, the tokens [start, end), what finds it again."""
    seen: dict[str, int] = {}
    out = []
    for start, end in stretches:
        text = "\n".join([name, *tokens[start:end]])
        seen[text] = seen.get(text, 0) + 1
        out.append(_bits(f"{text}\n{seen[text]}"))
    return out


def _bits(text: str) -> int:
    content = text.encode("utf-8")
    return zlib.crc32(content) << 32 | zlib.crc32(b"again " + content)


def write(
    names: dict[str, list[str]],
    keys: Sequence[int],
    log_shares: Heads,
    steps: list[str],
    step_keys: Sequence[int],
    log_odds: Any,
    word_keys: Sequence[int],
    word_shares: Heads,
) -> None:
    """Keep the logarithms of the shares of numbers and words, and of the odds of steps, by their keys."""
    import numpy as np

    kept: dict[str, Any] = {"keys": np.array(keys, dtype=np.uint64), "heads": _bytes(list(names))}
    for head, shares in log_shares.items():
        kept[f"{head} names"] = _bytes(names[head])
        kept[f"{head} top"], kept[f"{head} logs"] = _likeliest(shares)
    kept["word keys"] = np.array(word_keys, dtype=np.uint64)
    for head in OF_WORDS:
        kept[f"{head} word top"], kept[f"{head} word logs"] = _likeliest(word_shares[head])
    kept["step keys"], kept["step names"] = np.array(step_keys, dtype=np.uint64), _bytes(steps)
    kept["step top"], kept["step odds"] = _likeliest(log_odds)
    np.savez_compressed(FILE, **kept)


def _likeliest(logs: Any) -> tuple[Any, Any]:
    import numpy as np

    top = np.argsort(-logs, axis=1)[:, :_KEPT].astype(np.uint8)
    return top, np.maximum(np.take_along_axis(logs, top.astype(int), axis=1), -30).astype(np.float16)


def _bytes(names: Sequence[str]) -> Any:
    import numpy as np

    return np.frombuffer("\n".join(names).encode("utf-8"), dtype=np.uint8)


@cache
def stored() -> Stored:
    """Return what the file keeps."""
    import numpy as np

    with np.load(FILE, allow_pickle=False) as data:
        heads = _names(data["heads"])
        return Stored(
            {head: _names(data[f"{head} names"]) for head in heads},
            data["keys"],
            {head: data[f"{head} top"] for head in heads},
            {head: data[f"{head} logs"] for head in heads},
            (_names(data["step names"]), data["step keys"], data["step top"], data["step odds"]),
            (
                data["word keys"],
                {head: data[f"{head} word top"] for head in OF_WORDS},
                {head: data[f"{head} word logs"] for head in OF_WORDS},
            ),
        )


def _names(content: Any) -> list[str]:
    return bytes(content).decode("utf-8").split("\n")


__all__ = [
    "FILE",
    "NEVER",
    "OF_WORDS",
    "Stored",
    "keys_of",
    "keys_of_places",
    "keys_of_stretches",
    "stored",
    "write",
]
