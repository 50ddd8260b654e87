"""Trained weights that the package carries: what happens when they are not there."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from dictate.errors import RecordError
from dictate.mentions.second_opinion import net
from dictate.mentions.steps.second_opinion import weights as of_steps
from dictate.mentions.unsaid_stops import weights as of_stops


@pytest.mark.parametrize("trained", [net.trained, of_steps.trained, of_stops.trained])
def test_missing_weights_say_what_to_do(
    trained: Callable[[], object], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr("dictate.mentions.packaged.resources.files", lambda _: tmp_path)
    trained.cache_clear()
    try:
        with pytest.raises(RecordError, match="are missing") as error:
            trained()
        assert "Reinstall" in str(error.value)
    finally:
        trained.cache_clear()
