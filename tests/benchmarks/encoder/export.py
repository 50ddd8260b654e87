"""A trained net -> the files of the package: the layers as CTranslate2 reads them, and the head.

Needs ctranslate2, torch and transformers (`pip install .[train]`).
"""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import numpy as np
import torch

from dictate.mentions.second_opinion.encoder.model import FILES, HEAD, HEADS, LAYERS, NETS, PARTS, STEPS
from tests.benchmarks.encoder.network import WIDTH, Network, config
from tests.benchmarks.encoder.train import Names


def write(nets: Sequence[Network], names: Names, vocabulary: Sequence[str], folder: Path) -> int:
    """Write the files and return their size in bytes. What is read is what the nets say, one behind the other."""
    folder.mkdir(parents=True, exist_ok=True)
    for net, own in zip(nets, NETS, strict=True):
        _write_layers(net, own, vocabulary, folder)
    share = 1 / len(nets)

    def joined(of: Callable[[Network], Any]) -> Any:
        return (np.concatenate([_plain(of(net)) for net in nets]) * share).astype(np.float16)

    def added(of: Callable[[Network], Any]) -> Any:
        return (sum(_plain(of(net)) for net in nets) * share).astype(np.float16)

    np.savez_compressed(
        folder / HEAD,
        side_names=_text(names.sides),
        pieces=np.int64(len(vocabulary)),
        **{head: _text(names.of[head]) for head in HEADS},
        head=joined(lambda net: torch.cat([layer.weight.T for layer in net.heads()], dim=1)),
        bias=added(lambda net: torch.cat([layer.bias for layer in net.heads()])),
        side=added(lambda net: _sides(net, names)),
        # The means of what all nets say stand before the largest of it.
        of_steps=np.concatenate(
            [
                joined(lambda net: net.step.weight.T[:WIDTH]),
                joined(lambda net: net.step.weight.T[WIDTH:]),
            ]
        ),
        bias_of_steps=added(lambda net: net.step.bias),
        of_parts=joined(lambda net: net.part.weight.T),
        bias_of_parts=added(lambda net: net.part.bias),
        **{STEPS: _text(names.steps), PARTS: _text(names.parts)},
    )
    return sum((folder / name).stat().st_size for name in (*FILES, *NETS, HEAD))


def _write_layers(net: Network, own: str, vocabulary: Sequence[str], folder: Path) -> None:
    """Write the layers of one net into the file of its own, and what is the same of all nets beside it."""
    from ctranslate2.converters import TransformersConverter
    from transformers import BertConfig, BertModel

    layers = BertModel(config(len(vocabulary)), add_pooling_layer=False)
    layers.load_state_dict(net.layers.state_dict())
    # Newer releases dropped the name of the only way to tell positions, which the converter asks for.
    BertConfig.position_embedding_type = "absolute"
    with tempfile.TemporaryDirectory() as place:
        plain, made = Path(place, "plain"), Path(place, "made")
        layers.save_pretrained(plain)
        (plain / "vocab.txt").write_text("\n".join(vocabulary) + "\n", encoding="utf-8")
        TransformersConverter(str(plain)).convert(str(made), quantization="int8_float16")
        for name in FILES:
            shutil.copyfile(made / name, folder / name)
        shutil.copyfile(made / LAYERS, folder / own)


def _sides(net: Network, names: Names) -> Any:
    """Return the weights of what is known of a number, [side, name of all heads]; some heads do not ask for it."""
    asked = {"class": net.side, "way": net.side_of_way}
    return torch.cat(
        [
            asked[head].weight.T if head in asked else torch.zeros((len(names.sides), len(names.of[head])))
            for head in HEADS
        ],
        dim=1,
    )


def _plain(weights: Any) -> Any:
    return weights.detach().cpu().numpy()


def _text(names: Sequence[str]) -> Any:
    return np.frombuffer("\n".join(names).encode("utf-8"), dtype=np.uint8)


__all__ = ["write"]
