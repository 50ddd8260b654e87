"""The transcript as WebVTT (W3C), so that it plays beside the sound."""

from __future__ import annotations

from dictate.record.visit import Record


def vtt(record: Record, clip: str | None = None) -> str:
    """Return the transcript of one clip (or of all, with a note at each change) as WebVTT text.

    Segments without times are left out of the cues and kept as comments, since a cue needs its times.
    """
    out = ["WEBVTT", ""]
    current = None
    for number, segment in enumerate(record.transcript, start=1):
        if clip is not None and segment.clip != clip:
            continue
        if segment.clip != current:
            current = segment.clip
            name = next((c.file for c in record.clips if c.id == current), current)
            out += [f"NOTE {_plain(f'clip {current}: {name}')}", ""]
        text = _escape(segment.text)
        if segment.start_s is None or segment.end_s is None:
            out += [f"NOTE {text}", ""]
            continue
        end = max(segment.end_s, segment.start_s + 0.001)
        out += [f"{number}", f"{_time(segment.start_s)} --> {_time(end)}", text, ""]
    return "\n".join(out)


def _time(seconds: float) -> str:
    milliseconds = round(seconds * 1000)
    hours, rest = divmod(milliseconds, 3_600_000)
    minutes, rest = divmod(rest, 60_000)
    return f"{hours:02d}:{minutes:02d}:{rest // 1000:02d}.{rest % 1000:03d}"


def _plain(text: str) -> str:
    return " ".join(text.replace("-->", "->").split())


def _escape(text: str) -> str:
    return _plain(text).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
