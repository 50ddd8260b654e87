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
_BEFORE, _BEHIND = 4, 3
_LEAST = 1e-6


class Stored:
    """The kept shares of the numbers, by what finds a number again."""

    def __init__(
        self, classes: Sequence[str], ways: Sequence[str], keys: Any, top: Any, logs: Any, gone: Any
    ) -> None:
        self.classes, self.ways = list(classes), list(ways)
        self.keys = [int(key) for key in keys]
        self.place = {key: i for i, key in enumerate(self.keys)}
        self._top, self._logs, self._gone = top, logs, gone

    def of(self, name: str, narration: Narration) -> Any:
        """Return the logarithms of the shares of every number, [number, class]; nan where it is not found."""
        import numpy as np

        keys = keys_of(name, narration)
        out = np.full((len(keys), len(self.classes)), np.nan, dtype="float32")
        found = [n for n, key in enumerate(keys) if key in self.place]
        out[found] = self._wide([self.place[keys[n]] for n in found])
        return out

    def ways_of(self, name: str, narration: Narration) -> Any:
        """Return the logarithms of the shares of the ways of every number, [number, way]; nan as `of`."""
        import numpy as np

        keys = keys_of(name, narration)
        out = np.full((len(keys), len(self.ways)), np.nan, dtype="float32")
        found = [n for n, key in enumerate(keys) if key in self.place]
        out[found] = self._gone[[self.place[keys[n]] for n in found]]
        return out

    @property
    def way_shares(self) -> Any:
        """The logarithms of the shares of the ways of all numbers, in the order of the keys."""
        return self._gone.astype("float32")

    @property
    def shares(self) -> Any:
        """The logarithms of the shares of all numbers, [number, class], in the order of the keys."""
        return self._wide(list(range(len(self.keys))))

    def _wide(self, rows: Sequence[int]) -> Any:
        """Return the shares of some rows over all classes."""
        import numpy as np

        logs = self._logs[rows].astype("float32")
        left = np.maximum(1 - np.exp(logs).sum(axis=1, keepdims=True), _LEAST)
        out = np.repeat(np.log(left / (len(self.classes) - _KEPT)), len(self.classes), axis=1)
        np.put_along_axis(out, self._top[rows].astype(int), logs, axis=1)
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


def write(
    classes: Sequence[str], ways: Sequence[str], keys: Sequence[int], log_shares: Any, gone: Any
) -> None:
    """Keep the logarithms of the shares, [number, class] and [number, way], of numbers by their keys."""
    import numpy as np

    top = np.argsort(-log_shares, axis=1)[:, :_KEPT].astype(np.uint8)
    logs = np.take_along_axis(log_shares, top.astype(int), axis=1)
    np.savez_compressed(
        FILE,
        classes=_bytes(classes),
        ways=_bytes(ways),
        gone=np.maximum(gone, -30).astype(np.float16),
        keys=np.array(keys, dtype=np.uint64),
        top=top,
        logs=np.maximum(logs, -30).astype(np.float16),
    )


def _bytes(names: Sequence[str]) -> Any:
    import numpy as np

    return np.frombuffer("\n".join(names).encode("utf-8"), dtype=np.uint8)


@cache
def stored() -> Stored:
    """Return what the file keeps."""
    import numpy as np

    with np.load(FILE, allow_pickle=False) as data:
        classes, ways = (bytes(data[name]).decode("utf-8").split("\n") for name in ("classes", "ways"))
        return Stored(classes, ways, data["keys"], data["top"], data["logs"], data["gone"])


__all__ = ["FILE", "Stored", "keys_of", "stored", "write"]
