"""Mutated inputs through every reader: a valid result or one clear error, never a crash or a hang.

A sample runs every time; ten thousand run with `-m long`.
"""

import random
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from dictate import config
from dictate.errors import DictateError
from dictate.export import price_book, profile
from dictate.record import file
from dictate.speech.recording import open_recording
from dictate.speech.replay import read_transcript
from tests.ledger.fakes import wav
from tests.test_config import FILE as CONFIG

TEXT = "[0:05] Suction is at twenty two psi.\n[0:09] Recovered two pounds six ounces of R-404A.\n"
VTT = "WEBVTT\n\n1\n00:00:01.000 --> 00:00:04.000\nSuction is at 22 psi.\n\n00:05.000 --> 00:07.000\n<i>Box</i> 38\n"
SRT = "1\n00:00:01,000 --> 00:00:04,000\nSuction is at 22 psi.\n\n2\n00:00:05,000 --> 00:00:07,000\nBox 38\n"
BOOK = "code,name,price,said\nA,filter drier,12.50,drier|dryer\nB,labour,118,\n"
PROFILE = 'name = "x"\ndelimiter = ";"\n[[column]]\nname = "a"\nfrom = "line.price"\n'


def mutate(data: bytes, rng: random.Random) -> bytes:
    out = bytearray(data)
    for _ in range(rng.randint(1, 8)):
        kind, at = rng.randrange(6), rng.randrange(len(out) + 1) if out else 0
        if kind == 0 and out:
            out[at % len(out)] = rng.randrange(256)
        elif kind == 1:
            out[at:at] = rng.choice(
                [b"\x00", b"\xff\xfe", b'"', b"\n" * 50, "\u202e".encode(), b"9" * 400, b"[[", b"-->"]
            )
        elif kind == 2:
            del out[at : at + rng.randint(1, 40)]
        elif kind == 3:
            out = out[:at]
        elif kind == 4:
            out += out[at : at + 200]
        elif out:
            a, b = rng.randrange(len(out)), rng.randrange(len(out))
            out[a], out[b] = out[b], out[a]
    return bytes(out)


def record_json() -> bytes:
    from tests.export.test_export import record

    return file.to_json(record()).encode()


def decode(path: Path) -> None:
    for _ in open_recording(path).blocks():
        pass


def settings(path: Path) -> None:
    config.load(path, start=Path("/"), environment={})


def readers(tmp_path: Path) -> list[tuple[str, bytes, Callable[[Path], object]]]:
    return [
        ("a.txt", TEXT.encode(), lambda p: read_transcript(p, "c1")),
        ("a.vtt", VTT.encode(), lambda p: read_transcript(p, "c1")),
        ("a.srt", SRT.encode(), lambda p: read_transcript(p, "c1")),
        ("a.wav", wav(tmp_path / "seed.wav", 3).read_bytes(), decode),
        ("record.json", record_json(), file.load),
        ("dictate.toml", CONFIG.encode(), settings),
        ("book.csv", BOOK.encode(), price_book.read),
        ("profile.toml", PROFILE.encode(), lambda p: profile.read(str(p))),
    ]


def run(tmp_path: Path, count: int) -> tuple[int, int]:
    rng = random.Random(20261125)
    fine = refused = 0
    for name, seed, read in readers(tmp_path):
        path = tmp_path / name
        for _ in range(count):
            path.write_bytes(mutate(seed, rng))
            began = time.monotonic()
            try:
                read(path)
                fine += 1
            except DictateError as error:
                refused += 1
                assert "\n" not in str(error)
                assert len(str(error)) < 2000
            assert time.monotonic() - began < 5
    return fine, refused


def test_a_sample_of_mutated_inputs(tmp_path: Path) -> None:
    fine, refused = run(tmp_path, 40)
    assert fine
    assert refused


@pytest.mark.long
def test_ten_thousand_mutated_inputs(tmp_path: Path) -> None:
    fine, refused = run(tmp_path, 1250)
    assert fine + refused == 10_000
