"""Trained weights that the package carries as data."""

from __future__ import annotations

import io
from importlib import resources
from typing import Any

from dictate.errors import RecordError


def weights(package: str, what: str) -> dict[str, Any]:
    """Return the arrays of `weights.npz` of a package by name; RecordError where the file is missing."""
    import numpy as np

    try:
        content = (resources.files(package) / "weights.npz").read_bytes()
    except FileNotFoundError:
        raise RecordError(f"The weights of {what} are missing.", "Reinstall the package.") from None
    with np.load(io.BytesIO(content), allow_pickle=False) as data:
        return {name: data[name] for name in data.files}
