"""The real recogniser: what it must write on speech, and that it must not write on anything else."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from dictate.errors import ModelError, NoSpeechError
from dictate.mentions.hearing import TradeGrammar
from dictate.speech import listen, load_engine, models
from dictate.speech.engine import Engine, Piece
from dictate.speech.listening import Options
from dictate.speech.recording import open_recording
from tests.speech.sounds import RATE, hum, silence, taps, write_wav

pytestmark = [
    pytest.mark.model,
    pytest.mark.skipif(not models.installed("base"), reason="the weights package of base is not installed"),
]
SAMPLES = Path(__file__).parents[2] / "audio_samples"
SAMPLE = SAMPLES / "freezer-leak.m4a"


@pytest.fixture(scope="module")
def fast() -> Engine:
    return load_engine(Options(speed="fast", threads=2))


@pytest.fixture(scope="module")
def careful() -> Engine:
    return load_engine(Options(threads=2), TradeGrammar())


@pytest.fixture(scope="module")
def start_of_sample(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the first half minute of a committed sample."""
    if not SAMPLE.exists():
        pytest.skip("there is no sample")
    sound = []
    for block in open_recording(SAMPLE).blocks():
        sound.append(block)
        if sum(map(len, sound)) >= 30 * RATE:
            break
    return write_wav(tmp_path_factory.mktemp("s") / "start.wav", np.concatenate(sound)[: 30 * RATE])


def words_of(text: str) -> set[str]:
    return {w.strip(".,?!").lower() for w in text.split()}


@pytest.mark.parametrize("speed", ["fast", "careful"])
def test_speech_is_written_down_with_times(
    speed: str, start_of_sample: Path, fast: Engine, careful: Engine
) -> None:
    engine = fast if speed == "fast" else careful
    clips, segments, problems = listen([start_of_sample], engine=engine, keep=False)
    reference = words_of((SAMPLES / "freezer-leak.txt").read_text(encoding="utf-8"))
    written = words_of(" ".join(s.text for s in segments))
    plain = {w for w in written if w.isalpha() and len(w) > 3}
    assert len(plain & reference) > 0.75 * len(plain)
    assert problems == []
    last = 0.0
    for segment in segments:
        assert segment.text == " ".join(w.text for w in segment.words)
        for word in segment.words:
            assert word.start_s is not None and word.end_s is not None and word.probability is not None
            assert last - 0.35 <= word.start_s < word.end_s <= 30.5
            last = word.start_s
    engine_facts = clips[0].engine
    for key in ("model_sha256", "compute_type", "faster_whisper", "ctranslate2", "speed"):
        assert engine_facts[key]


def test_careful_keeps_the_evidence(start_of_sample: Path, careful: Engine) -> None:
    _, segments, _ = listen([start_of_sample], engine=careful, keep=False)
    sources = {a.source for s in segments for a in s.alternatives}
    assert "words" in sources
    if models.installed("tiny.en"):
        assert all(any(a.source == "witness" for a in s.alternatives) for s in segments)
    doubts = [(s, d) for s in segments for d in s.doubts]
    assert doubts
    for segment, doubt in doubts:
        assert 0 <= doubt.first_word <= doubt.last_word < len(segment.words)
    scored = [d for _, d in doubts if d.margin is not None and (d.support or 0) > 0.95]
    # A number that every decode agrees on fits the sound better than what it could be confused with.
    assert scored and sum(1 for d in scored if (d.margin or 0) > 0) > 0.9 * len(scored)


@pytest.mark.parametrize("sound", [hum(40), taps(40), silence(40)], ids=["hum", "taps", "silence"])
@pytest.mark.parametrize("speed", ["fast", "careful"])
def test_sound_without_speech_gives_no_words(
    tmp_path: Path, sound: np.ndarray, speed: str, fast: Engine, careful: Engine
) -> None:
    path = write_wav(tmp_path / "x.wav", sound)
    with pytest.raises(NoSpeechError):
        listen([path], engine=fast if speed == "fast" else careful, keep=False)


@pytest.mark.parametrize("make", [hum, taps, silence], ids=["hum", "taps", "silence"])
def test_even_behind_the_voice_detector_no_hint_is_printed(make, careful: Engine) -> None:
    """What the detector lets through by mistake must not come out as the trade words of the hint."""
    sound = make(8.0)
    heard = careful.hear([Piece(0, 0.0, sound, 7.0)])[0]
    said = " ".join(sorted(words_of(heard.text)))
    assert "superheat" not in said and "contactor" not in said and "drier" not in said


def test_one_changed_byte_is_refused_before_loading(tmp_path: Path) -> None:
    source = models.find("base").folder
    folder = tmp_path / "base"
    folder.mkdir()
    for name in models.register().models["base"].files:
        (folder / name).write_bytes((source / name).read_bytes())
    with (folder / "model.bin").open("r+b") as data:
        data.seek(50_000_000)
        byte = data.read(1)
        data.seek(50_000_000)
        data.write(bytes([byte[0] ^ 1]))
    with pytest.raises(ModelError, match="damaged"):
        load_engine(Options(model=str(folder)))


def test_a_folder_that_is_no_model_is_one_clear_line(tmp_path: Path) -> None:
    for name in ("model.bin", "config.json", "tokenizer.json"):
        (tmp_path / name).write_text("{}")
    with pytest.raises(ModelError, match="cannot be loaded"):
        load_engine(Options(model=str(tmp_path)))
