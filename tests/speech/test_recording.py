"""Any container in, 16 kHz mono out; what is broken is said, and half a recording never passes for a whole."""

from __future__ import annotations

import os
import tracemalloc
import wave
from pathlib import Path

import numpy as np
import pytest

from dictate.errors import InputError, OutputError
from dictate.speech.recording import RATE, open_recording, recording_time, sha256, write_review_copy
from tests.speech.sounds import Sound, hum, silence, tone, write_coded, write_wav

CODED = [
    ("x.m4a", "aac"),
    ("x.mp4", "aac"),
    ("x.mp3", "libmp3lame"),
    ("x.flac", "flac"),
    ("x.ogg", "libopus"),
    ("x.opus", "libopus"),
    ("x.webm", "libopus"),
]


def decoded(path: Path) -> tuple[Sound, list[str]]:
    recording = open_recording(path)
    blocks = list(recording.blocks())
    assert all(b.dtype == np.int16 and b.ndim == 1 for b in blocks)
    return np.concatenate(blocks), recording.troubles


def pitch(sound: Sound) -> float:
    spectrum = np.abs(np.fft.rfft(sound[RATE : 2 * RATE].astype(float)))
    return float(np.argmax(spectrum))  # one second: a bin is one hertz


@pytest.mark.parametrize(("name", "codec"), CODED)
def test_every_container_gives_the_same_sound(tmp_path: Path, name: str, codec: str) -> None:
    rate = 48_000 if codec == "libopus" else RATE
    path = write_coded(tmp_path / name, tone(3.0), codec, rate)
    sound, troubles = decoded(path)
    assert abs(len(sound) / RATE - 3.0) < 0.1
    assert pitch(sound) == pytest.approx(440, abs=2)
    assert troubles == []


@pytest.mark.parametrize("rate", [8_000, 22_050, 44_100, 48_000])
def test_every_rate_becomes_16_khz(tmp_path: Path, rate: int) -> None:
    sound, troubles = decoded(write_wav(tmp_path / "x.wav", tone(3.0, rate=rate), rate))
    assert abs(len(sound) / RATE - 3.0) < 0.02
    assert pitch(sound) == pytest.approx(440, abs=2)
    assert troubles == []


def test_stereo_is_mixed_and_out_of_phase_stereo_is_not_lost(tmp_path: Path) -> None:
    one = tone(2.0)
    for other in (one, np.zeros_like(one), -one):
        both = np.stack([one, other], axis=1).reshape(-1)
        sound, _ = decoded(write_wav(tmp_path / "x.wav", both, channels=2))
        assert np.abs(sound).max() > 3000


@pytest.mark.parametrize("name", ["x.wav", "x.mp3", "x.ogg", "x.flac", "x.m4a"])
def test_a_cut_off_file_is_used_as_far_as_it_goes_and_reported(tmp_path: Path, name: str) -> None:
    sound = hum(12.0)
    path = tmp_path / name
    codecs = {"mp3": "libmp3lame", "ogg": "libopus", "flac": "flac", "m4a": "aac"}
    if name == "x.wav":
        write_wav(path, sound)
    else:
        options = {"movflags": "faststart"} if name == "x.m4a" else {}
        rate = 48_000 if name == "x.ogg" else RATE
        write_coded(path, sound, codecs[path.suffix[1:]], rate, **options)
    whole = path.read_bytes()
    path.write_bytes(whole[: len(whole) * 6 // 10])
    got, troubles = decoded(path)
    assert 4.0 < len(got) / RATE < 11.0
    assert len(troubles) == 1
    path.write_bytes(whole)
    assert decoded(path)[1] == []


def test_a_recording_that_was_never_finished_says_so(tmp_path: Path) -> None:
    path = write_coded(tmp_path / "x.m4a", hum(12.0), "aac")
    path.write_bytes(path.read_bytes()[:-3000])
    with pytest.raises(InputError, match="cut off: its index is missing") as caught:
        open_recording(path)
    assert "Copy it again" in str(caught.value)


def test_a_preallocated_copy_is_reported(tmp_path: Path) -> None:
    path = write_wav(tmp_path / "x.wav", np.concatenate([hum(12.0), silence(12.0)]))
    assert any("digital silence" in t for t in decoded(path)[1])


def test_a_wav_that_was_streamed_makes_no_claim(tmp_path: Path) -> None:
    path = write_wav(tmp_path / "x.wav", tone(2.0))
    raw = bytearray(path.read_bytes())
    at = raw.find(b"data")
    raw[at + 4 : at + 8] = b"\xff\xff\xff\xff"
    path.write_bytes(raw)
    assert decoded(path)[1] == []


@pytest.mark.parametrize(
    ("name", "content", "says"),
    [
        ("x.wav", b"", "is empty"),
        ("x.m4a", b"Suction is at twenty two psi.\n" * 20, "holds text, not sound"),
        ("x.mp3", bytes(range(256)) * 20, "not a recording"),
        ("x.wav", b"RIFF\x00\x00\x00\x00WAVE", "cut off"),
    ],
)
def test_what_is_no_recording_is_said_in_one_line(
    tmp_path: Path, name: str, content: bytes, says: str
) -> None:
    path = tmp_path / name
    path.write_bytes(content)
    with pytest.raises(InputError) as caught:
        decoded(path)
    assert says in str(caught.value)
    assert caught.value.advice
    assert "\n" not in str(caught.value)


def test_missing_folder_and_unreadable(tmp_path: Path) -> None:
    for path, says in ((tmp_path / "no.wav", "there is no file"), (tmp_path, "is a folder")):
        with pytest.raises(InputError, match=says):
            open_recording(path)
    locked = write_wav(tmp_path / "x.wav", tone(1.0))
    locked.chmod(0)
    if os.access(locked, os.R_OK):
        pytest.skip("this user may read everything")
    with pytest.raises(InputError, match="may not be read"):
        open_recording(locked)


def test_a_video_without_sound_is_refused(tmp_path: Path) -> None:
    import av

    path = tmp_path / "x.mp4"
    with av.open(str(path), "w") as container:
        stream = container.add_stream("mpeg4", rate=10)
        stream.width = stream.height = 32
        stream.pix_fmt = "yuv420p"
        for _ in range(5):
            frame = av.VideoFrame.from_ndarray(np.zeros((32, 32, 3), np.uint8), format="rgb24")
            container.mux(stream.encode(frame))
        container.mux(stream.encode(None))
    with pytest.raises(InputError, match="no sound track"):
        open_recording(path)


def test_the_recording_time_comes_from_the_file(tmp_path: Path) -> None:
    path = write_coded(
        tmp_path / "x.m4a", tone(1.0), "aac", metadata={"creation_time": "2026-03-05T14:07:09Z"}
    )
    assert open_recording(path).recorded_at == "2026-03-05T14:07:09Z"
    assert open_recording(write_wav(tmp_path / "x.wav", tone(1.0))).recorded_at is None


# The forms are those of RFC 3339, section 5.6; the 1904 epoch is that of ISO/IEC 14496-12, 8.2.2.
@pytest.mark.parametrize(
    ("metadata", "expected"),
    [
        ({"creation_time": "2026-03-05T14:07:09.123456Z"}, "2026-03-05T14:07:09Z"),
        ({"com.apple.quicktime.creationdate": "2026-03-05T09:07:09-0500"}, "2026-03-05T09:07:09-05:00"),
        ({"creation_time": "1904-01-01T00:00:00Z"}, None),
        ({"creation_time": "1970-01-01T00:00:00Z"}, None),
        ({"date": "2026"}, None),
        ({"date": "2026-03-05T14:07:09"}, None),
        ({"creation_time": "yesterday"}, None),
        ({}, None),
    ],
)
def test_only_a_time_with_a_zone_is_a_time(metadata: dict[str, str], expected: str | None) -> None:
    assert recording_time(metadata) == expected


def test_memory_does_not_grow_with_the_length(tmp_path: Path) -> None:
    def peak(seconds: float) -> int:
        path = write_wav(tmp_path / "x.wav", hum(seconds))
        recording = open_recording(path)
        tracemalloc.start()
        for _ in recording.blocks():
            pass
        top = tracemalloc.get_traced_memory()[1]
        tracemalloc.stop()
        return top

    assert peak(240) < 1.3 * peak(60)


def test_the_review_copy_is_the_sound_that_was_decoded(tmp_path: Path) -> None:
    path = write_coded(tmp_path / "x.m4a", hum(3.0), "aac")
    target = tmp_path / "sound" / "c1.wav"
    recording = write_review_copy(path, target)
    with wave.open(str(target)) as copy:
        assert (copy.getframerate(), copy.getnchannels(), copy.getsampwidth()) == (RATE, 1, 2)
        sound = np.frombuffer(copy.readframes(copy.getnframes()), "<i2")
    assert len(sound) / RATE == pytest.approx(recording.duration_s)
    assert np.array_equal(sound, decoded(path)[0])
    assert [p.name for p in target.parent.iterdir()] == ["c1.wav"]


def test_an_unwritable_place_for_the_review_copy(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(OutputError):
        write_review_copy(write_wav(tmp_path / "x.wav", tone(1.0)), tmp_path / "file" / "c1.wav")


# FIPS 180-4 example: the SHA-256 of "abc".
def test_the_hash_is_sha256(tmp_path: Path) -> None:
    (tmp_path / "x").write_bytes(b"abc")
    assert sha256(tmp_path / "x") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
