"""Open a recording, whatever container it came in, and hand out its sound piece by piece.

The sound is always 16 kHz, one channel. It is decoded as a stream: one block is in memory, never the whole
file, so that an hour costs no more memory than a minute. What a file claims (its length, its data size, its
end mark) is compared with what could be decoded, because a half-copied wav, ogg or mp3 decodes without any
error: half a recording is reported, never passed on in silence.
"""

from __future__ import annotations

import datetime
import hashlib
import os
import stat
import struct
import wave
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from dictate.errors import InputError, OutputError

if TYPE_CHECKING:
    import av

RATE = 16_000
"""Samples per second of everything behind this module."""

Sound = NDArray[np.int16]

_BLOCK_S = 10
_RATES = (1_000, 768_000)
"""Samples per second that real recordings have; a damaged header can ask for hours of resampling."""
_READ = 1 << 20
_CANCELLED = 0.25
"""A stereo block whose mix keeps less than this share of the louder channel's loudness is out of phase."""
_ZERO_TAIL_S = 10.0
"""Sound that ends in this much exact digital silence looks like a copy that was never finished."""


@dataclass
class Recording:
    """One recording: what is known before decoding, and what decoding found out.

    `duration_s` is the length that could be decoded, in seconds; it and `troubles` are complete only after
    `blocks()` has run to its end. `declared_s` is what the file says about itself, null when it says nothing;
    `expected_s` is a guess, good enough for a progress bar.
    """

    path: Path
    sha256: str
    container: str
    codec: str
    rate: int
    channels: int
    declared_s: float | None
    recorded_at: str | None
    expected_s: float = 0.0
    duration_s: float = 0.0
    troubles: list[str] = field(default_factory=list)

    def blocks(self) -> Iterator[Sound]:
        """Decode from the start: arrays of at most ten seconds, int16, 16 kHz, one channel.

        Raise InputError when not one sample can be decoded.
        """
        self.duration_s = 0.0
        self.troubles = _cut_short(self.path, self.container)
        zeros = 0
        for block in _decode(self):
            self.duration_s += len(block) / RATE
            loud = np.flatnonzero(block)
            zeros = zeros + len(block) if not len(loud) else len(block) - 1 - int(loud[-1])
            yield block
        if self.duration_s == 0:
            raise InputError(
                f"{self.path} holds no sound that can be decoded.",
                "Copy the recording again from the phone, or record anew.",
            )
        missing = (self.declared_s or 0) - self.duration_s
        if missing > max(1.0, 0.02 * self.duration_s) and not self.troubles:
            self.troubles.append(
                f"only {_clock(self.duration_s)} of {_clock(self.declared_s or 0)} could be decoded"
            )
        tail = zeros / RATE
        if self.container == "wav" and _ZERO_TAIL_S < tail < self.duration_s:
            self.troubles.append(
                f"the last {_clock(tail)} are exact digital silence, as in an unfinished copy"
            )


def _clock(seconds: float) -> str:
    whole = round(seconds)
    if whole >= 3600:
        return f"{whole // 3600}:{whole % 3600 // 60:02d}:{whole % 60:02d}"
    return f"{whole // 60}:{whole % 60:02d}"


# --------------------------------------------------------------------------------------------- open


def readable(path: Path) -> None:
    """Raise InputError, with the next thing to do, unless this is a readable file that is not empty."""
    try:
        status = path.stat()
    except FileNotFoundError:
        raise InputError(f"there is no file {path}.", "Check the name and the folder.") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        raise InputError(f"{path} cannot be opened ({reason}).", "Check the path.") from None
    if stat.S_ISDIR(status.st_mode):
        raise InputError(f"{path} is a folder.", "Name the recordings in it, such as folder/*.m4a.")
    if not stat.S_ISREG(status.st_mode):
        raise InputError(f"{path} is not a regular file.", "Name a recording.")
    if status.st_size == 0:
        raise InputError(
            f"{path} is empty (0 bytes).",
            "The copy was not finished, or nothing was recorded; copy it again.",
        )
    if not os.access(path, os.R_OK):
        raise InputError(f"{path} may not be read.", "Give yourself permission to read it (chmod u+r).")


def sha256(path: Path) -> str:
    """Return the SHA-256 of a file's bytes in hex, reading one block at a time."""
    digest = hashlib.sha256()
    try:
        with path.open("rb") as data:
            while block := data.read(_READ):
                digest.update(block)
    except PermissionError:
        raise InputError(
            f"{path} may not be read.", "Give yourself permission to read it (chmod u+r)."
        ) from None
    except OSError as error:
        raise InputError(
            f"{path} cannot be read ({error.strerror}).", "Check the disk or the copy."
        ) from None
    return digest.hexdigest()


def open_recording(path: Path) -> Recording:
    """Look at a recording without decoding it: hash, container, claimed length, recording time.

    Raise InputError when it is missing, empty, unreadable, a folder, no recording, or without a sound track.
    """
    readable(path)
    digest = sha256(path)
    import av

    try:
        with av.open(str(path), metadata_errors="ignore") as container:
            if not container.streams.audio:
                raise InputError(f"{path} has no sound track.", "Name a recording with sound.")
            stream = container.streams.audio[0]
            declared = None
            if stream.duration and stream.time_base:
                declared = float(stream.duration * stream.time_base)
            elif container.duration and container.duration > 0:
                declared = container.duration / 1_000_000
            name = container.format.name.split(",")[0]
            context = stream.codec_context
            if context is None:
                raise InputError(
                    f"{path} is in a sound format that cannot be decoded.", "Save it as m4a, wav or flac."
                )
            if context.sample_rate and not _RATES[0] <= context.sample_rate <= _RATES[1]:
                raise InputError(
                    f"{path} claims {context.sample_rate} samples a second: its header is damaged.",
                    "Copy the recording again from the phone.",
                )
            metadata = {**dict(stream.metadata), **dict(container.metadata)}
            recording = Recording(
                path=path,
                sha256=digest,
                container="mp4" if name in ("mov", "mp4") else name,
                codec=context.name or "",
                rate=context.sample_rate or 0,
                channels=context.channels or 0,
                declared_s=declared if _length_is_a_claim(name, context.name or "") else None,
                recorded_at=recording_time(metadata),
                expected_s=declared or max(0.0, (container.duration or 0) / 1_000_000),
            )
    except InputError:
        raise
    except (av.error.FFmpegError, OSError, ValueError, IndexError) as error:
        raise _not_a_recording(path, error) from None
    return recording


def unfinished(path: Path) -> list[str]:
    """Return why a file looks like a copy that is not complete yet; nothing when it looks whole.

    The container's own lengths are compared with the bytes that are there; nothing is decoded. Raise
    InputError for a file that is no recording (a half-copied m4a or flac is none yet).
    """
    recording = open_recording(path)
    return _cut_short(path, recording.container)


def _length_is_a_claim(container: str, codec: str) -> bool:
    """Tell whether the container writes its length down.

    Where it does not, the library guesses it from the bit rate, and a guess proves nothing.
    """
    return (
        container in ("mov", "mp4", "matroska", "webm", "flac", "mp3", "wav", "caf", "aiff", "asf")
        and codec != ""
    )


def _not_a_recording(path: Path, error: Exception) -> InputError:
    try:
        with path.open("rb") as data:
            head = data.read(4096)
    except OSError:
        head = b""
    if head[4:8] == b"ftyp":
        return InputError(
            f"{path} is cut off: its index is missing, so no sound can be read.",
            "Copy it again from the phone; a recording that was never stopped properly cannot be saved here.",
        )
    if head[:4] == b"RIFF" or head[:4] in (b"OggS", b"fLaC") or head[:3] == b"ID3":
        return InputError(f"{path} is damaged or cut off.", "Copy it again from the phone.")
    if head and all(byte >= 32 or byte in b"\t\r\n\f" for byte in head[:512]):
        return InputError(
            f"{path} holds text, not sound.",
            "Give a transcript the ending .txt, .vtt or .srt; else name a recording.",
        )
    reason = getattr(error, "strerror", None) or type(error).__name__
    return InputError(
        f"{path} is not a recording that can be read ({reason}).",
        "Name a wav, mp3, m4a, ogg, flac or mp4 file.",
    )


# ------------------------------------------------------------------------------------ recording time


def recording_time(metadata: dict[str, str]) -> str | None:
    """Return when the recording was made, as RFC 3339, from a container's metadata; else null.

    A time with a zone of its own comes first (phones write one beside the UTC time). A time without a zone
    says nothing that RFC 3339 could express, so it gives null; so do the epochs that unset clocks write.

    >>> recording_time({"creation_time": "2026-03-05T14:07:09.000000Z"})
    '2026-03-05T14:07:09Z'
    >>> recording_time({"creation_time": "1904-01-01T00:00:00.000000Z"}) is None
    True
    """
    lower = {key.lower(): value for key, value in metadata.items()}
    for key in ("com.apple.quicktime.creationdate", "creation_time", "date", "creationdate", "icrd"):
        text = (lower.get(key) or "").strip()
        try:
            when = datetime.datetime.fromisoformat(text)
        except ValueError:
            continue
        if when.tzinfo is None or when.year < 1990 or when.year > 9000:
            continue
        written = when.replace(microsecond=0).isoformat()
        return written.removesuffix("+00:00") + "Z" if written.endswith("+00:00") else written
    return None


# ------------------------------------------------------------------------------------------- decode


def _decode(recording: Recording) -> Iterator[Sound]:
    """Yield blocks of mono int16 at 16 kHz; skip frames that cannot be decoded, and count them."""
    import av

    lost = 0
    pending: list[Sound] = []
    held = 0
    try:
        with av.open(str(recording.path), metadata_errors="ignore") as container:
            stream = container.streams.audio[0]
            layout = "mono" if (stream.codec_context.channels or 1) == 1 else "stereo"
            resampler = av.AudioResampler(format="s16", layout=layout, rate=RATE)
            for frame in _frames(container, stream):
                if frame is None:
                    lost += 1
                    continue
                for out in _resampled(resampler, frame):
                    pending.append(_mono(out.to_ndarray(), layout))
                    held += len(pending[-1])
                    if held >= _BLOCK_S * RATE:
                        yield np.concatenate(pending)
                        pending, held = [], 0
            for out in _resampled(resampler, None):
                pending.append(_mono(out.to_ndarray(), layout))
                held += len(pending[-1])
    except (av.error.FFmpegError, OSError, ValueError, IndexError) as error:
        if not held and not recording.duration_s:
            raise _not_a_recording(recording.path, error) from None
        recording.troubles.append("decoding stopped early, as at the end of a cut-off file")
    if held:
        yield np.concatenate(pending)
    if lost > 1:
        # One bad frame is what the end of an ordinary mp3 looks like; more are a damaged file.
        recording.troubles.append(f"{lost} damaged places were skipped")


def _frames(container: Any, stream: Any) -> Iterator[Any]:
    """Yield decoded frames, and None for each packet that cannot be decoded."""
    import av

    packets = container.demux(stream)
    bad_in_a_row = 0
    while bad_in_a_row < 100:
        try:
            packet = next(packets)
        except StopIteration:
            return
        except av.error.InvalidDataError:
            bad_in_a_row += 1
            yield None
            continue
        try:
            frames = packet.decode()
        except av.error.EOFError:
            return
        except (av.error.InvalidDataError, av.error.ArgumentError):
            bad_in_a_row += 1
            yield None
            continue
        if frames:
            bad_in_a_row = 0
        yield from frames


def _resampled(resampler: av.AudioResampler, frame: Any) -> list[Any]:
    if frame is not None:
        frame.pts = None  # the resampler fills gaps in time stamps by itself; some phones write wrong ones
    return list(resampler.resample(frame))


def _mono(array: NDArray[Any], layout: str) -> Sound:
    """Mix two channels into one; take the louder one where they cancel each other out."""
    flat: Sound = np.ascontiguousarray(array).reshape(-1).astype(np.int16, copy=False)
    if layout == "mono":
        return flat
    pairs = flat.reshape(-1, 2).astype(np.float32)
    mix = pairs.mean(axis=1)
    loudest = np.sqrt((pairs**2).mean(axis=0)).max() if len(pairs) else 0.0
    if loudest > 0 and np.sqrt((mix**2).mean()) < _CANCELLED * loudest:
        mix = pairs[:, int((pairs**2).mean(axis=0).argmax())]
    whole: Sound = mix.astype(np.int16)
    return whole


# -------------------------------------------------------------------------------- what a file claims


def _cut_short(path: Path, container: str) -> list[str]:
    """Compare what a wav or ogg file says about its own size with the bytes that are there."""
    try:
        with path.open("rb") as data:
            if container == "wav":
                return _wav_cut_short(data, path.stat().st_size)
            if container == "ogg":
                return _ogg_cut_short(data, path.stat().st_size)
            if container == "mp4":
                return _mp4_cut_short(data, path.stat().st_size)
    except (OSError, struct.error):
        return []
    return []


def _wav_cut_short(data: Any, size: int) -> list[str]:
    """Walk the RIFF chunks; the sound's chunk must lie inside the file.

    A recorder that streams writes 0 or 0xFFFFFFFF as the size because it does not know it: no claim.
    """
    if data.read(4) != b"RIFF":
        return []
    data.seek(12)
    while len(head := data.read(8)) == 8:
        name, length = head[:4], struct.unpack("<I", head[4:])[0]
        if name == b"data":
            here = size - data.tell()
            if length in (0, 0xFFFFFFFF) or length <= here:
                return []
            return [f"the file is cut off: {100 * here / length:.0f} % of its sound is there"]
        data.seek(length + (length & 1), os.SEEK_CUR)
    return []


def _ogg_cut_short(data: Any, size: int) -> list[str]:
    """Look at the last page: it must lie inside the file and carry the end mark (RFC 3533, section 6)."""
    tail = min(size, 1 << 17)
    data.seek(size - tail)
    block = data.read(tail)
    at = block.rfind(b"OggS")
    if at < 0:
        return ["the file is cut off: it does not end with a whole page"]
    page = block[at:]
    if len(page) < 27 or len(page) < 27 + page[26]:
        return ["the file is cut off in the middle of a page"]
    if len(page) < 27 + page[26] + sum(page[27 : 27 + page[26]]):
        return ["the file is cut off in the middle of a page"]
    if not page[5] & 4:
        return ["the file has no end mark, so its end may be missing"]
    return []


def _mp4_cut_short(data: Any, size: int) -> list[str]:
    """Walk the boxes at the top level (ISO/IEC 14496-12, 4.2); each must lie inside the file."""
    at = 0
    while at + 8 <= size:
        data.seek(at)
        head = data.read(16)
        length, name = struct.unpack(">I4s", head[:8])
        if length == 1 and len(head) == 16:
            length = struct.unpack(">Q", head[8:])[0]
        if length == 0:  # to the end of the file
            return []
        if length < 8:
            return []
        if at + length > size:
            if name == b"mdat":
                here = 100 * (size - at) / length
                return [f"the file is cut off: {here:.0f} % of its sound is there"]
            return ["the file is cut off"]
        at += length
    return []


# --------------------------------------------------------------------------------------- review copy


class ReviewCopy:
    """Writes the 16 kHz WAV that a browser plays, from the very blocks that the recogniser reads.

    Its times agree exactly with the transcript's. It is written beside its final name and renamed at the
    end, so that an interrupted run leaves nothing half-written.
    """

    def __init__(self, target: Path) -> None:
        self.target = target
        self._temporary = target.with_name(f".{target.name}.{os.getpid()}.part")
        try:
            target.parent.mkdir(parents=True, exist_ok=True)
            self._wave = wave.open(str(self._temporary), "wb")  # noqa: SIM115 - closed in close()
            self._wave.setnchannels(1)
            self._wave.setsampwidth(2)
            self._wave.setframerate(RATE)
        except OSError as error:
            raise self._failed(error) from None

    def write(self, block: Sound) -> None:
        """Add one block of 16 kHz mono int16."""
        try:
            self._wave.writeframes(block.astype("<i2", copy=False).tobytes())
        except OSError as error:
            self.abandon()
            raise self._failed(error) from None

    def close(self) -> None:
        """Finish the file and give it its name."""
        try:
            self._wave.close()
            self._temporary.replace(self.target)
        except OSError as error:
            self.abandon()
            raise self._failed(error) from None

    def abandon(self) -> None:
        """Remove what was written so far."""
        try:
            self._wave.close()
        except OSError:
            pass
        finally:
            self._temporary.unlink(missing_ok=True)

    def _failed(self, error: OSError) -> OutputError:
        return OutputError(
            f"the review copy {self.target} cannot be written ({error.strerror}).",
            "Choose another folder or make room.",
        )


def write_review_copy(path: Path, target: Path) -> Recording:
    """Decode a recording and write its review copy; return what decoding found out."""
    recording = open_recording(path)
    copy = ReviewCopy(target)
    try:
        for block in recording.blocks():
            copy.write(block)
    except BaseException:
        copy.abandon()
        raise
    copy.close()
    return recording
