"""A trained net -> the files of the package: the layers as CTranslate2 reads them, and the head.

Needs ctranslate2, torch and transformers (`pip install .[train]`).
"""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np

from dictate.mentions.second_opinion.encoder.model import FILES, HEAD, HEADS, PARTS, STEPS
from tests.benchmarks.encoder.network import Network, config
from tests.benchmarks.encoder.train import Names


def write(net: Network, names: Names, vocabulary: Sequence[str], folder: Path) -> int:
    """Write the files and return their size in bytes."""
    from ctranslate2.converters import TransformersConverter
    from transformers import BertConfig, BertModel

    layers = BertModel(config(len(vocabulary)), add_pooling_layer=False)
    layers.load_state_dict(net.layers.state_dict())
    # Newer releases dropped the name of the only way to tell positions, which the converter asks for.
    BertConfig.position_embedding_type = "absolute"
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as place:
        plain, made = Path(place, "plain"), Path(place, "made")
        layers.save_pretrained(plain)
        (plain / "vocab.txt").write_text("\n".join(vocabulary) + "\n", encoding="utf-8")
        TransformersConverter(str(plain)).convert(str(made), quantization="int8_float16")
        for name in FILES:
            shutil.copyfile(made / name, folder / name)
    np.savez_compressed(
        folder / HEAD,
        side_names=_text(names.sides),
        pieces=np.int64(len(vocabulary)),
        **{head: _text(names.of[head]) for head in HEADS},
        head=np.concatenate([_half(layer.weight).T for layer in net.heads()], axis=1),
        bias=np.concatenate([_half(layer.bias) for layer in net.heads()]),
        side=_sides(net, names),
        of_steps=_half(net.step.weight).T,
        bias_of_steps=_half(net.step.bias),
        of_parts=_half(net.part.weight).T,
        bias_of_parts=_half(net.part.bias),
        **{STEPS: _text(names.steps), PARTS: _text(names.parts)},
    )
    return sum((folder / name).stat().st_size for name in (*FILES, HEAD))


def _sides(net: Network, names: Names) -> Any:
    """Return the weights of what is known of a number, [side, name of all heads]; some heads do not ask for it."""
    asked = {"class": net.side, "way": net.side_of_way}
    return np.concatenate(
        [
            _half(asked[head].weight).T
            if head in asked
            else np.zeros((len(names.sides), len(names.of[head])), np.float16)
            for head in HEADS
        ],
        axis=1,
    )


def _half(weights: Any) -> Any:
    return weights.detach().cpu().numpy().astype(np.float16)


def _text(names: Sequence[str]) -> Any:
    return np.frombuffer("\n".join(names).encode("utf-8"), dtype=np.uint8)


__all__ = ["write"]
