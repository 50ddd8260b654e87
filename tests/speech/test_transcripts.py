"""Transcripts that exist already: `.txt`, `.vtt` and `.srt`, also damaged ones."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from dictate.errors import DictateError, InputError, NoSpeechError
from dictate.record.transcript import Segment
from dictate.speech.replay import from_text, read_transcript


def read(tmp_path: Path, name: str, text: str | bytes) -> list[Segment]:
    path = tmp_path / name
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return read_transcript(path, "c1")


def test_plain_text_has_words_without_times(tmp_path: Path) -> None:
    (first, second) = read(tmp_path, "a.txt", "Suction is 22.\n\nHead is 205 psi.\n")
    assert first.text == "Suction is 22."
    assert [w.text for w in second.words] == ["Head", "is", "205", "psi."]
    assert all(w.start_s is None and w.probability is None for w in first.words)


def test_lines_broken_for_their_width_belong_together(tmp_path: Path) -> None:
    text = "Suction is at twenty two and the head pressure is at two hundred and five\npsi. Box 38.\nSuperheat 12."
    assert [s.text for s in read(tmp_path, "a.txt", text)] == [
        "Suction is at twenty two and the head pressure is at two hundred and five psi. Box 38.",
        "Superheat 12.",
    ]


def test_marks_give_times(tmp_path: Path) -> None:
    text = "[0:05] Suction is 22. [0:09] Head is 205.\n[1:00:00.5]\nBox is 38 degrees."
    a, b, c = read(tmp_path, "a.txt", text)
    assert (a.start_s, b.start_s, c.start_s) == (5.0, 9.0, 3600.5)
    assert a.end_s is not None and a.end_s <= 9.0
    starts = [w.start_s for w in b.words]
    assert starts == sorted(starts) and starts[0] == 9.0
    assert b.words[-1].end_s == b.end_s


# The first file is made of the examples in W3C WebVTT, sections 1.1 to 1.4 (notes, cue settings, voices, entities).
def test_webvtt(tmp_path: Path) -> None:
    text = (
        "WEBVTT - Translation of that film I like\n\nNOTE\nThis comes from the pump.\n\nSTYLE\n::cue { color: red }\n\n"
        "1\n00:11.000 --> 00:13.000 align:start line:0%\n<v Roger Bingham>We are in New York City\n\n"
        "01:00:13.500 --> 01:00:16.000\nLoad &amp; line <b>207</b> volts\n- second line\n"
    )
    a, b = read(tmp_path, "a.vtt", text)
    assert (a.start_s, a.end_s, a.text) == (11.0, 13.0, "We are in New York City")
    assert (b.start_s, b.text) == (3613.5, "Load & line 207 volts - second line")
    assert all(3613.5 <= (w.start_s or 0) <= 3616.0 for w in b.words)


def test_srt_with_and_without_empty_lines(tmp_path: Path) -> None:
    text = "1\r\n00:00:01,000 --> 00:00:02,500\r\nSuction is 22.\r\n2\r\n00:00:03,000 --> 00:00:04,000\r\nHead 205.\r\n"
    a, b = read(tmp_path, "a.srt", text)
    assert (a.text, b.text) == ("Suction is 22.", "Head 205.")
    assert (a.start_s, b.start_s) == (1.0, 3.0)


def test_a_rolling_caption_says_each_line_once(tmp_path: Path) -> None:
    text = (
        "WEBVTT\n\n00:01.000 --> 00:03.000\nsuction is 22\n\n00:03.000 --> 00:05.000\nsuction is 22\nhead is 205\n\n"
        "00:05.000 --> 00:07.000\nhead is 205\nbox is 38\n"
    )
    assert [s.text for s in read(tmp_path, "a.vtt", text)] == ["suction is 22", "head is 205", "box is 38"]


def test_the_same_words_said_twice_stay_twice(tmp_path: Path) -> None:
    text = "WEBVTT\n\n00:01.000 --> 00:02.000\nzero volts\n\n00:04.000 --> 00:05.000\nzero volts\n"
    assert len(read(tmp_path, "a.vtt", text)) == 2


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_encodings(tmp_path: Path, encoding: str) -> None:
    (segment,) = read(tmp_path, "a.txt", "Box 38°, no hum – none.".encode(encoding))
    assert segment.text == "Box 38°, no hum – none."


@pytest.mark.parametrize(
    ("name", "content", "error", "says"),
    [
        ("a.txt", b"", InputError, "empty"),
        ("a.txt", b" \n\t\n", NoSpeechError, "no words"),
        ("a.vtt", b"WEBVTT\n\n", NoSpeechError, "no words"),
        ("a.txt", bytes(range(256)) * 40, InputError, "not a text file"),
        ("a.txt", b"RIFF\x00\x01\x02\x03WAVEfmt \x10\x00\x00\x00", InputError, "not a text file"),
        ("a.vtt", b"00:01.000 --> 00:02.000\nhello\n", InputError, "WEBVTT"),
        ("a.vtt", b"WEBVTT\n\nx\n\nhello\n", InputError, "line 3"),
        ("a.vtt", b"WEBVTT\n\n00:01.000 -> --> 00:02\nhello\n", InputError, "line 3"),
        ("a.srt", b"1\nhello\n", InputError, "line 1"),
        ("a.srt", b"1\n00:00:01,000 --> soon\nhello\n", InputError, "line 2"),
    ],
)
def test_what_is_malformed_is_said(
    tmp_path: Path, name: str, content: bytes, error: type[DictateError], says: str
) -> None:
    with pytest.raises(error, match=says) as caught:
        read(tmp_path, name, content)
    assert caught.value.advice
    assert "\n" not in str(caught.value)


PIECES = st.sampled_from(
    ["WEBVTT", "\n", "\n\n", "00:01.000 --> 00:02.000", "00:00:03,000 --> 00:00:01,000", "-->", "1", "NOTE x", "<v A>",
     "&amp;", "[0:05]", "[99:99]", "suction 22", "\u202e", "\x00", "é", "99:99:99.999 --> 0:0", "\ufeff", "<" * 50]
)  # fmt: skip


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(parts=st.lists(PIECES, max_size=25), suffix=st.sampled_from([".txt", ".vtt", ".srt"]))
def test_any_file_is_a_transcript_or_one_clear_line(tmp_path: Path, parts: list[str], suffix: str) -> None:
    path = tmp_path / f"a{suffix}"
    path.write_text("".join(parts), encoding="utf-8")
    try:
        segments = read_transcript(path, "c1")
    except DictateError as error:
        assert "\n" not in str(error) and error.advice
        return
    for segment in segments:
        assert segment.words
        assert (segment.end_s or 0) >= (segment.start_s or 0) >= 0


@given(st.text(max_size=200))
def test_no_word_of_a_plain_text_is_lost(text: str) -> None:
    from dictate.speech.replay import _MARK

    if _MARK.search(text):
        return
    words = [w.text for s in from_text(text, "c1") for w in s.words]
    assert words == " ".join(text.split("\n")).split()
