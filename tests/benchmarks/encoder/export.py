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

from dictate.mentions.second_opinion.encoder.model import FILES, HEAD
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
        classes=_text(names.classes),
        side_names=_text(names.sides),
        pieces=np.int64(len(vocabulary)),
        head=_half(net.head.weight).T,
        bias=_half(net.head.bias),
        side=_half(net.side.weight).T,
        ways=_text(names.ways),
        way_head=_half(net.way.weight).T,
        way_bias=_half(net.way.bias),
        way_side=_half(net.side_of_way.weight).T,
    )
    return sum((folder / name).stat().st_size for name in (*FILES, HEAD))


def _half(weights: Any) -> Any:
    return weights.detach().cpu().numpy().astype(np.float16)


def _text(names: Sequence[str]) -> Any:
    return np.frombuffer("\n".join(names).encode("utf-8"), dtype=np.uint8)


__all__ = ["write"]
