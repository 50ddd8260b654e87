"""What the encoder says of the narrations of `develop/` when it was not trained on them, kept in a file.

Training takes minutes on a graphics card, so the other benchmarks, which must not read a narration with an
encoder that knows its labels, take these instead. A number is found again by its narration, its words and
the words close around it, so that a text may change elsewhere; a number that is not found has no row. The
likeliest classes of each number are kept, and what is left of its shares is spread over the others.
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

Heads = dict[str, Any]
"""The logarithms of shares by head, [number, name]."""


class Stored:
    """The kept shares of the numbers, by what finds a number again."""

    def __init__(self, names: dict[str, list[str]], keys: Any, top: Heads, logs: Heads) -> None:
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

    def shares(self, head: str) -> Any:
        """Return the logarithms of the shares of all numbers, [number, name], in the order of the keys."""
        return self._wide(head, list(range(len(self.keys))))

    def _wide(self, head: str, rows: Sequence[int]) -> Any:
        """Return the shares of some rows over all names of a head."""
        import numpy as np

        logs = self._logs[head][rows].astype("float32")
        left = np.maximum(1 - np.exp(logs).sum(axis=1, keepdims=True), _LEAST)
        size = len(self.names[head])
        out = np.repeat(np.log(left / max(size - logs.shape[1], 1)), size, axis=1)
        np.put_along_axis(out, self._top[head][rows].astype(int), logs, axis=1)
        return out


def keys_of(name: str, narration: Narration) -> list[int]:
    """Return for every number of a narration what finds it again: 64 bits of its name, words and neighbours."""
    seen: dict[int, int] = {}
    out = []
    words = narration.lowers
    for x in find_numbers(narration):
        near = (
            words[max(0, x.start - _BEFORE) : x.start],
            words[x.start : x.end],
            words[x.end : x.end + _BEHIND],
        )
        text = "\n".join([name, *(" ".join(some) for some in near)])
        key = _bits(text)
        seen[key] = seen.get(key, 0) + 1
        out.append(key if seen[key] == 1 else _bits(f"{text}\n{seen[key]}"))
    return out


def _bits(text: str) -> int:
    content = text.encode("utf-8")
    return zlib.crc32(content) << 32 | zlib.crc32(b"again " + content)


def write(names: dict[str, list[str]], keys: Sequence[int], log_shares: Heads) -> None:
    """Keep the logarithms of the shares, [number, name], of numbers by their keys."""
    import numpy as np

    kept: dict[str, Any] = {"keys": np.array(keys, dtype=np.uint64), "heads": _bytes(list(names))}
    for head, shares in log_shares.items():
        top = np.argsort(-shares, axis=1)[:, :_KEPT].astype(np.uint8)
        logs = np.take_along_axis(shares, top.astype(int), axis=1)
        kept[f"{head} names"] = _bytes(names[head])
        kept[f"{head} top"], kept[f"{head} logs"] = top, np.maximum(logs, -30).astype(np.float16)
    np.savez_compressed(FILE, **kept)


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
        )


def _names(content: Any) -> list[str]:
    return bytes(content).decode("utf-8").split("\n")


__all__ = ["FILE", "Stored", "keys_of", "stored", "write"]
