"""Pieces: bounded in length, cut in pauses, nothing of the speech lost, nothing held for long."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import pytest

from dictate.speech.engine import Piece
from dictate.speech.voice import Cutting, pieces
from tests.doubles.engines import ByLoudness
from tests.speech.sounds import RATE, Sound, bursts, hum, silence, tone


def blocks(sound: Sound, size: int = 40_000) -> Iterator[Sound]:
    for at in range(0, len(sound), size):
        yield sound[at : at + size]


def cut(sound: Sound, **settings: float) -> list[Piece]:
    return list(pieces(blocks(sound), ByLoudness(), Cutting(**settings)))


def loud(sound: Sound) -> int:
    return int((np.abs(sound) > 1000).sum())


def test_silence_gives_no_piece() -> None:
    assert cut(silence(30)) == []


def test_each_burst_between_long_pauses_is_a_piece_in_its_place() -> None:
    got = cut(bursts([2.0, 3.0, 1.0]))
    assert [round(p.speech_s) for p in got] == [2, 3, 1]
    assert [p.index for p in got] == [0, 1, 2]
    # The bursts begin at 0.5, 5.0 and 10.5 s; each piece begins at most the pad earlier.
    for piece, start in zip(got, (0.5, 5.0, 10.5), strict=True):
        assert start - 0.45 <= piece.start_s <= start


def test_no_speech_is_lost_and_none_doubled() -> None:
    rng = np.random.default_rng(3)
    parts: list[Sound] = []
    for _ in range(40):
        parts += [tone(float(rng.uniform(0.3, 14.0))), silence(float(rng.uniform(0.1, 3.0)))]
    sound = np.concatenate(parts)
    got = cut(sound)
    assert sum(loud(p.samples) for p in got) == pytest.approx(loud(sound), rel=0.002)
    ends = [p.start_s + p.seconds for p in got]
    assert all(b.start_s >= a - 0.32 for a, b in zip(ends, got[1:], strict=False))


def test_no_piece_is_longer_than_allowed() -> None:
    for piece in cut(np.concatenate([tone(61.0), silence(1)])):
        assert piece.seconds <= 10.0 + 2 * 0.35


def test_a_long_stretch_is_cut_in_its_pause() -> None:
    sound = np.concatenate([tone(7.0), silence(0.6), tone(7.0), silence(2)])
    first, second = cut(sound)
    assert first.speech_s == pytest.approx(7.0, abs=0.1)
    assert second.speech_s == pytest.approx(7.0, abs=0.1)


def test_pieces_do_not_depend_on_how_the_sound_arrives() -> None:
    sound = bursts([2.0, 6.0, 5.0, 0.5], pause=0.8)
    a = list(pieces(blocks(sound, 1_000), ByLoudness()))
    b = list(pieces(blocks(sound, 160_000), ByLoudness()))
    assert [(p.start_s, len(p.samples)) for p in a] == [(p.start_s, len(p.samples)) for p in b]


def test_a_click_is_no_speech() -> None:
    assert cut(np.concatenate([silence(1), tone(0.06), silence(3)])) == []


def test_the_noise_beside_the_speech_is_measured() -> None:
    rng = np.random.default_rng(1)
    noise = (300 * rng.standard_normal(10 * RATE)).astype(np.int16)
    speech = noise.copy()
    speech[3 * RATE : 6 * RATE] += tone(3.0, level=4243.0)  # power 9e6 against 9e4: 20 dB
    (piece,) = cut(speech)
    assert piece.snr_db == pytest.approx(20.0, abs=1.0)


def test_an_hour_is_never_held() -> None:
    def hours() -> Iterator[Sound]:
        for n in range(120):
            yield np.concatenate([tone(20.0, 200 + n), silence(10.0)])

    largest = 0
    count = 0
    for piece in pieces(hours(), ByLoudness()):
        largest = max(largest, len(piece.samples))
        count += 1
    assert largest <= 11 * RATE
    assert count >= 240


def test_hum_below_the_detector_is_nothing() -> None:
    assert list(pieces(blocks(hum(5)), ByLoudness(threshold=1e6))) == []
