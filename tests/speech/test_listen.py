"""The way in: several files are one visit, the good ones survive the broken one, a killed run goes on."""

from __future__ import annotations

import math
import sqlite3
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from dictate.errors import InputError, ModelError, NoSpeechError, UsageError
from dictate.record.visit import Clip
from dictate.speech import Heard, listen, review_copy
from dictate.speech.kept import Kept, key_of
from dictate.speech.listening import Listened
from dictate.speech.recording import sha256
from dictate.speech.replay import ReplayEngine, spoken
from tests.doubles.engines import ByLoudness, CrashingEngine, InterruptedEngine, NothingEngine
from tests.speech.sounds import bursts, hum, silence, write_coded, write_wav

ANSWERS = ["Suction is 22.", "Head is 205 psi.", "Box is at 38."]


@pytest.fixture
def talk(tmp_path: Path) -> Path:
    return write_wav(tmp_path / "talk.wav", bursts([2.0, 3.0, 1.0]))


def hear(paths: list[Path], tmp_path: Path, engine: Any = None, **more: Any) -> Listened:
    more.setdefault("keep", tmp_path / "kept.sqlite3")
    return listen(paths, engine=engine or ReplayEngine(ANSWERS), detector=ByLoudness, **more)


def test_words_are_where_they_were_said(talk: Path, tmp_path: Path) -> None:
    clips, segments, problems = hear([talk], tmp_path)
    assert problems == []
    (clip,) = clips
    assert (clip.id, clip.file, clip.sha256) == ("c1", str(talk), sha256(talk))
    assert clip.duration_s == pytest.approx(0.5 + 6.0 + 3 * 2.5)
    assert (clip.model, clip.language) == ("stored", "en")
    assert [s.text for s in segments] == ANSWERS
    for segment, (start, end) in zip(segments, ((0.5, 2.5), (5.0, 8.0), (10.5, 11.5)), strict=True):
        assert segment.start_s == pytest.approx(start, abs=0.45)
        assert segment.end_s == pytest.approx(end, abs=0.45)
        starts = [w.start_s for w in segment.words]
        assert starts == sorted(starts)


def test_several_files_are_one_visit_in_the_order_of_recording(tmp_path: Path) -> None:
    late = write_coded(
        tmp_path / "a.m4a", bursts([2.0]), "aac", metadata={"creation_time": "2026-03-05T15:00:00Z"}
    )
    early = write_coded(
        tmp_path / "b.m4a", bursts([3.0]), "aac", metadata={"creation_time": "2026-03-05T14:00:00Z"}
    )
    assert [c.file for c in hear([late, early], tmp_path).clips] == [str(early), str(late)]
    timeless = write_wav(tmp_path / "c.wav", bursts([1.0]))
    clips = hear([late, timeless, early], tmp_path).clips
    assert [c.file for c in clips] == [str(late), str(timeless), str(early)]
    assert [c.id for c in clips] == ["c1", "c2", "c3"]


def test_a_recording_and_a_transcript_go_together(talk: Path, tmp_path: Path) -> None:
    note = tmp_path / "note.txt"
    note.write_text("[0:03] Serial is A100.")
    clips, segments, _ = hear([talk, note], tmp_path)
    assert [c.model for c in clips] == ["stored", None]
    assert (segments[-1].clip, segments[-1].text) == ("c2", "Serial is A100.")


def test_a_transcript_needs_no_engine(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    note = tmp_path / "note.txt"
    note.write_text("Suction is 22.")
    monkeypatch.setattr("dictate.speech.listening.load_engine", lambda *a: pytest.fail("no engine is needed"))
    assert listen([note]).clips[0].duration_s is None


def test_the_good_one_survives_the_broken_one(talk: Path, tmp_path: Path) -> None:
    (tmp_path / "empty.wav").touch()
    quiet = write_wav(tmp_path / "quiet.wav", silence(3))
    paths = [tmp_path / "no.wav", talk, tmp_path / "empty.wav", quiet]
    clips, segments, problems = hear(paths, tmp_path)
    assert [c.id for c in clips] == ["c1"] and len(segments) == 3
    assert [Path(p.file).name for p in problems] == ["no.wav", "empty.wav", "quiet.wav"]
    assert all(p.error and p.advice for p in problems)
    assert "nobody speaks" in problems[2].error


def test_half_a_file_is_used_and_named(talk: Path, tmp_path: Path) -> None:
    half = tmp_path / "half.wav"
    half.write_bytes(talk.read_bytes()[: talk.stat().st_size * 7 // 10])
    _, segments, problems = hear([half], tmp_path)
    assert len(segments) == 2
    assert "70 % of its sound is there" in problems[0].error


def test_the_same_bytes_twice_are_used_once(talk: Path, tmp_path: Path) -> None:
    copy = tmp_path / "copy.wav"
    copy.write_bytes(talk.read_bytes())
    clips, _, problems = hear([talk, copy], tmp_path)
    assert len(clips) == 1
    assert "same recording" in problems[0].error


def test_nothing_usable_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="there is no file"):
        hear([tmp_path / "no.wav"], tmp_path)
    (tmp_path / "empty.wav").touch()
    with pytest.raises(InputError, match="none of the 2 inputs"):
        hear([tmp_path / "no.wav", tmp_path / "empty.wav"], tmp_path)


def test_nobody_speaks(talk: Path, tmp_path: Path) -> None:
    with pytest.raises(NoSpeechError, match="nobody speaks") as caught:
        hear([write_wav(tmp_path / "x.wav", silence(4))], tmp_path)
    assert caught.value.exit_code == 5
    with pytest.raises(NoSpeechError):
        hear([talk], tmp_path, NothingEngine())


def test_a_missing_model_stops_before_any_work(talk: Path, tmp_path: Path) -> None:
    with pytest.raises(ModelError):
        listen([talk], model="no-such-model", keep=tmp_path / "kept.sqlite3")


def test_an_unknown_speed_is_wrong_usage(talk: Path, tmp_path: Path) -> None:
    with pytest.raises(UsageError):
        hear([talk], tmp_path, speed="warp")


def test_a_crash_of_the_engine_is_not_an_empty_visit(talk: Path, tmp_path: Path) -> None:
    with pytest.raises(RuntimeError):
        hear([talk], tmp_path, CrashingEngine())


def test_progress_grows_and_tells_what_is_left(talk: Path, tmp_path: Path) -> None:
    told: list[tuple[str, float, float]] = []
    engine = ReplayEngine(ANSWERS, batch=1)
    hear([talk], tmp_path, engine, progress=lambda *p: told.append(p))
    shares = [share for _, share, _ in told]
    assert shares[0] == 0.0 and shares[-1] == pytest.approx(1.0)
    assert shares == sorted(shares)
    assert len(told) >= 4
    assert math.isnan(told[0][2]) and told[-1][2] == pytest.approx(0.0, abs=0.01)


# ------------------------------------------------------------------------------------- kept answers


def test_a_second_run_asks_the_engine_nothing(talk: Path, tmp_path: Path) -> None:
    first = ReplayEngine(ANSWERS)
    one = hear([talk], tmp_path, first)
    second = ReplayEngine(ANSWERS)
    two = hear([talk], tmp_path, second)
    assert (first.calls, second.calls) == (1, 0)
    assert [s.model_dump() for s in one.segments] == [s.model_dump() for s in two.segments]


def test_fresh_asks_again_and_other_settings_too(talk: Path, tmp_path: Path) -> None:
    hear([talk], tmp_path)
    again = ReplayEngine(ANSWERS)
    hear([talk], tmp_path, again, fresh=True)
    assert again.calls == 1
    other = ReplayEngine([*ANSWERS[:2], "Box is at 48."])
    assert hear([talk], tmp_path, other).segments[-1].text == "Box is at 48."
    assert other.calls == 1


def test_a_killed_run_goes_on_where_it_was(talk: Path, tmp_path: Path) -> None:
    with pytest.raises(KeyboardInterrupt):
        hear([talk], tmp_path, InterruptedEngine(ANSWERS, at_call=3))
    rest = InterruptedEngine(ANSWERS, at_call=99)
    assert [s.text for s in hear([talk], tmp_path, rest).segments] == ANSWERS
    assert rest.calls == 1  # only the piece that was missing


def test_a_broken_or_unwritable_cache_costs_only_time(talk: Path, tmp_path: Path) -> None:
    broken = tmp_path / "broken.sqlite3"
    broken.write_bytes(b"this is no database" * 100)
    assert len(hear([talk], tmp_path, keep=broken).segments) == 3
    second = ReplayEngine(ANSWERS)
    hear([talk], tmp_path, second, keep=broken)
    assert second.calls == 0  # it was made anew
    blocked = tmp_path / "file"
    blocked.write_text("in the way")
    assert len(hear([talk], tmp_path, keep=blocked / "x.sqlite3").segments) == 3
    assert len(hear([talk], tmp_path, keep=False).segments) == 3


def test_the_cache_is_bounded_and_drops_the_oldest(tmp_path: Path) -> None:
    heard = spoken("word " * 200, 10.0)
    with Kept(tmp_path / "k.sqlite3", most=200_000) as kept:
        for n in range(60):
            kept.put(f"key{n}", heard)
    with Kept(tmp_path / "k.sqlite3") as kept:
        assert kept.get("key0") is None
        assert kept.get("key59") == heard
    with sqlite3.connect(tmp_path / "k.sqlite3") as base:
        assert base.execute("SELECT SUM(LENGTH(answer)) FROM heard").fetchone()[0] <= 200_000


def test_the_key_knows_the_sound_and_the_settings(talk: Path) -> None:
    from dictate.speech.engine import Piece

    sound = np.arange(100, dtype=np.int16)
    one = Piece(0, 0.0, sound, 1.0)
    assert key_of(one, {"a": "1"}) == key_of(Piece(7, 55.0, sound.copy(), 1.0), {"a": "1"})
    assert key_of(one, {"a": "1"}) != key_of(one, {"a": "2"})
    assert key_of(one, {"a": "1"}) != key_of(Piece(0, 0.0, sound + 1, 1.0), {"a": "1"})


# --------------------------------------------------------------------------------------- review copy


def test_the_review_copy_is_named_after_its_clip(talk: Path, tmp_path: Path) -> None:
    clip = Clip(id="c3", file=str(talk), sha256=sha256(talk))
    assert review_copy(talk, {clip.sha256: clip}, tmp_path / "sound") == tmp_path / "sound" / "c3.wav"
    other = write_wav(tmp_path / "other.wav", hum(1))
    assert review_copy(other, {clip.sha256: clip}, tmp_path / "sound") is None
    note = tmp_path / "note.txt"
    note.write_text("Suction 22.")
    assert review_copy(note, {}, tmp_path / "sound") is None


def test_stored_answers_may_hold_all_evidence(talk: Path, tmp_path: Path) -> None:
    answer = spoken("Box 38.", 2.0)
    answer.no_speech = 0.2
    _, segments, _ = hear([talk], tmp_path, ReplayEngine([answer, Heard(), Heard()]))
    assert [(s.text, s.no_speech) for s in segments] == [("Box 38.", 0.2)]
