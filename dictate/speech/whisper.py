"""The recogniser: the one module that imports faster-whisper and CTranslate2.

A batch of pieces is encoded once and decoded twice. Decode A is an ordinary beam search with a few neutral
trade words as a hint; decode B may not write a single digit or currency sign, so that "two pounds six ounces"
cannot become "2.6 ounces". The n best of both are ranked by their score plus what the trade's grammar
accepts. Then the winner is aligned with the sound for its word times, the other readings of its numbers are
scored against the same sound (forced scoring), and a second, smaller model may listen as a witness.

faster-whisper's own `transcribe` is not used: it keeps only one hypothesis, and its memory grows with the
length of the file. What is used of it is the tokenizer, the log-mel spectrogram and the Silero voice
detector.
"""

from __future__ import annotations

import contextlib
import os
import re
import zlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import ctranslate2
import numpy as np
import tokenizers
from faster_whisper import __version__ as faster_whisper_version
from faster_whisper.feature_extractor import FeatureExtractor
from faster_whisper.tokenizer import Tokenizer
from faster_whisper.vad import get_vad_model
from numpy.typing import NDArray

from dictate.errors import ModelError
from dictate.record.transcript import Alternative, Doubt, Word
from dictate.speech.engine import Device, Grammar, Heard, NeutralGrammar, Piece, Speed
from dictate.speech.models import Model

_RATE = 16_000
_HOP = 160  # samples per spectrogram frame
_FULL = 3000  # frames of the model's own 30 s window
_SHORT = 1500
"""Frames of the window that a piece of at most ten seconds gets. A third of the cost of the full one; the
model needs about five seconds of silence after the speech to know that it is over, and loops with less."""
_SHORT_FITS = 1040
_BEAM = 5
_DIGIT_OR_MONEY = re.compile(r"[\d$£€¥¢₹]")
_COMPRESSED_TOO_WELL = 2.4  # as in Whisper's own guard against loops
_PER_SECOND = 12.0
"""More tokens than this per second of sound is faster than anybody speaks: the model is making words up."""


class SileroDetector:
    """The Silero voice detector over a stream: its state carries over from block to block."""

    def __init__(self) -> None:
        self._session: Any = get_vad_model().session
        self._h = np.zeros((1, 1, 128), np.float32)
        self._c = np.zeros((1, 1, 128), np.float32)
        self._context = np.zeros(64, np.float32)

    def probabilities(self, samples: NDArray[np.int16]) -> NDArray[np.float32]:
        """Return the probability of speech of each frame of 512 samples."""
        sound = samples.astype(np.float32) / 32768.0
        frames = sound.reshape(-1, 512)
        before = np.concatenate([self._context[None, :], frames[:-1, -64:]])
        self._context = frames[-1, -64:].copy()
        batch = np.concatenate([before, frames], axis=1)
        out, self._h, self._c = self._session.run(None, {"input": batch, "h": self._h, "c": self._c})
        result: NDArray[np.float32] = np.asarray(out, np.float32).reshape(-1)
        return result


@dataclass
class _Hypothesis:
    """One way to write a piece down."""

    text: str
    tokens: list[int]
    score: float
    source: str
    rank: float = 0.0


class _Network:
    """One set of weights with its tokenizer: encode, generate, align."""

    def __init__(self, model: Model, device: Device, threads: int, language: str) -> None:
        self.model = model
        if device == "auto":
            device = "cuda" if ctranslate2.get_cuda_device_count() > 0 else "cpu"
        self.device: str = device
        self.compute = "int8" if device == "cpu" else "float16"
        try:
            self.net = ctranslate2.models.Whisper(
                str(model.folder), device=device, compute_type=self.compute, intra_threads=threads
            )
            hub = tokenizers.Tokenizer.from_file(str(model.folder / "tokenizer.json"))
            self.multilingual = bool(self.net.is_multilingual)
            self.tokenizer = Tokenizer(hub, self.multilingual, task="transcribe", language=language)
            self.extract = FeatureExtractor(feature_size=int(self.net.n_mels))
        except Exception as error:  # tokenizers raises bare exceptions
            first = str(error).splitlines()[0] if str(error) else type(error).__name__
            raise ModelError(
                f"the model in {model.folder} cannot be loaded on {device} ({first}).",
                "Type: dictate models verify",
            ) from None

    def encode(self, pieces: Sequence[Piece], frames: int) -> Any:
        """Return the encoder's output for a batch of pieces, each padded to `frames`."""
        batch = np.zeros((len(pieces), int(self.net.n_mels), frames), np.float32)
        for row, piece in zip(batch, pieces, strict=True):
            sound = piece.samples.astype(np.float32) / 32768.0
            spectrogram = self.extract(sound, padding=160)[:, : min(frames, _frames(piece))]
            row[:, : spectrogram.shape[1]] = spectrogram
        return self.net.encode(ctranslate2.StorageView.from_array(batch))

    @cached_property
    def ordinary(self) -> list[int]:
        """Tokens that are never written: annotations, and the model's own marks."""
        t = self.tokenizer
        marks = {t.transcribe, t.translate, t.sot, t.sot_prev, t.sot_lm, t.no_speech}
        return sorted({*t.non_speech_tokens, *(m for m in marks if m is not None)})

    @cached_property
    def numerals(self) -> list[int]:
        """Tokens that hold a digit or a currency sign."""
        hub = self.tokenizer.tokenizer
        limit = self.tokenizer.eot
        return [i for i in range(limit) if _DIGIT_OR_MONEY.search(hub.decode([i]))]

    def prompt(self, hint: str) -> list[int]:
        """Return the start of a transcript, with the hint where the model expects earlier text."""
        t = self.tokenizer
        before = [t.sot_prev, *t.encode(" " + hint.strip())[:200]] if hint else []
        return [*before, *t.sot_sequence, t.no_timestamps]

    def generate(
        self,
        encoded: Any,
        pieces: Sequence[Piece],
        hint: str,
        source: str,
        best: int,
        *,
        words_only: bool = False,
    ) -> tuple[list[list[_Hypothesis]], list[float]]:
        """Decode a batch; return the n best of each piece, and how sure the model is that nobody speaks."""
        prompt = self.prompt(hint)
        # A piece cannot hold more words than fit into its seconds; a loop is cut short by that as well.
        room = max(24, int(max(p.seconds for p in pieces) * _PER_SECOND) + 16)
        results = self.net.generate(
            encoded,
            [prompt] * len(pieces),
            beam_size=_BEAM,
            num_hypotheses=best,
            return_scores=True,
            return_no_speech_prob=True,
            max_length=min(448, len(prompt) + room),
            suppress_tokens=self.ordinary + (self.numerals if words_only else []),
        )
        out = []
        for result in results:
            row = []
            for ids, score in zip(result.sequences_ids, result.scores, strict=True):
                tokens = [i for i in ids if i < self.tokenizer.eot]
                row.append(_Hypothesis(self.tokenizer.decode(tokens).strip(), tokens, float(score), source))
            out.append(row)
        return out, [float(r.no_speech_prob) for r in results]

    def align(self, encoded: Any, texts: list[list[int]], frames: list[int]) -> list[Any]:
        """Return CTranslate2's alignment of each text with the sound of its row."""
        return list(
            self.net.align(encoded, self.tokenizer.sot_sequence, texts, frames, median_filter_width=7)
        )


def _frames(piece: Piece) -> int:
    return max(1, len(piece.samples) // _HOP)


class WhisperEngine:
    """faster-whisper's models behind the engine protocol.

    `threads` is the number of CPU threads (0: the cores there are, at most four); `hint` are neutral trade
    words without numbers; `witness` is a second model that is only asked for its opinion. Not safe for
    several threads at once.
    """

    def __init__(
        self,
        model: Model,
        *,
        speed: Speed = "careful",
        device: Device = "auto",
        threads: int = 0,
        language: str = "en",
        hint: str = "",
        grammar: Grammar | None = None,
        grammar_weight: float = 0.15,
        witness: Model | None = None,
        batch: int = 0,
    ) -> None:
        self.speed = speed
        self.hint = hint
        self.grammar: Grammar = grammar or NeutralGrammar()
        self.grammar_weight = grammar_weight
        threads = threads or min(
            4, max(1, len(os.sched_getaffinity(0)) if _has_affinity() else os.cpu_count() or 1)
        )
        self._net = _Network(model, device, threads, language)
        self._language = language if self._net.multilingual else "en"
        self._witness = (
            _Network(witness, device, threads, "en") if witness is not None and speed == "careful" else None
        )
        self._batch = batch or (4 if self._net.device == "cpu" else 32)

    @property
    def model_id(self) -> str:
        """Return the model's name as the record shows it."""
        return self._net.model.id

    @property
    def language(self) -> str:
        """Return the language that is written down."""
        return self._language

    @property
    def batch(self) -> int:
        """Return how many pieces one call should hold."""
        return self._batch

    def settings(self) -> dict[str, str]:
        """Return what the answers depend on."""
        out = {
            "model": self._net.model.id,
            "model_sha256": self._net.model.sha256,
            "compute_type": self._net.compute,
            "device": self._net.device,
            "speed": self.speed,
            "language": self._language,
            "faster_whisper": faster_whisper_version,
            "ctranslate2": ctranslate2.__version__,
            "hint_crc": f"{zlib.crc32(self.hint.encode()):08x}",
        }
        if self._witness is not None:
            out["witness"] = self._witness.model.id
            out["witness_sha256"] = self._witness.model.sha256
        if self.speed == "careful":
            out["grammar"] = f"{self.grammar.version} x {self.grammar_weight:g}"
        return out

    def hear(self, pieces: Sequence[Piece]) -> list[Heard]:
        """Write down the pieces, in order, one answer each."""
        out: list[Heard | None] = [None] * len(pieces)
        short = [i for i, p in enumerate(pieces) if _frames(p) <= _SHORT_FITS]
        long = [i for i in range(len(pieces)) if i not in set(short)]
        for group, frames in ((short, _SHORT), (long, _FULL)):
            if not group:
                continue
            for i, heard in zip(group, self._hear([pieces[i] for i in group], frames), strict=True):
                out[i] = heard
        # A loop in the short window is decoded once more in the window that the model was trained with.
        again = [i for i in short if (h := out[i]) is not None and h.source == "loop"]
        if again:
            for i, heard in zip(again, self._hear([pieces[i] for i in again], _FULL), strict=True):
                out[i] = heard
        return [h if h is not None and h.source != "loop" else Heard(source="nothing") for h in out]

    def _hear(self, pieces: Sequence[Piece], frames: int) -> list[Heard]:
        net = self._net
        encoded = net.encode(pieces, frames)
        careful = self.speed == "careful"
        best = _BEAM if careful else 1
        lists, no_speech = net.generate(encoded, pieces, self.hint, "decode", best)
        if careful:
            more, _ = net.generate(encoded, pieces, self.hint, "words", best, words_only=True)
            lists = [a + b for a, b in zip(lists, more, strict=True)]
        witness: list[_Hypothesis | None] = [None] * len(pieces)
        if self._witness is not None:
            other = self._witness.encode(pieces, frames)
            rows, _ = self._witness.generate(other, pieces, "", "witness", 1)
            witness = [row[0] for row in rows]
        chosen = [self._choose(row, piece) for row, piece in zip(lists, pieces, strict=True)]
        out: list[Heard] = []
        spans = (
            net.align(
                encoded,
                [h.tokens if h is not None else [] for h in chosen],
                [min(_frames(p), frames) for p in pieces],
            )
            if any(h is not None for h in chosen)
            else [None] * len(pieces)
        )
        for piece, row, hypothesis, span, quiet, second in zip(
            pieces, lists, chosen, spans, no_speech, witness, strict=True
        ):
            if hypothesis is None:
                out.append(
                    Heard(source="loop" if row and any(h.text for h in row) else "nothing", no_speech=quiet)
                )
                continue
            if _nothing_said(hypothesis, quiet, piece, self.hint):
                out.append(Heard(source="nothing", no_speech=quiet, score=hypothesis.score))
                continue
            heard = Heard(
                text=hypothesis.text,
                words=self._words(hypothesis, span, piece),
                alternatives=_others(row, hypothesis, second),
                score=round(hypothesis.score, 4),
                no_speech=round(quiet, 4),
                source=hypothesis.source,
            )
            out.append(heard)
        if careful:
            self._score_rivals(encoded, frames, pieces, out)
        return out

    # ------------------------------------------------------------------------------------- choosing

    def _choose(self, row: list[_Hypothesis], piece: Piece) -> _Hypothesis | None:
        """Return the hypothesis with the best score plus grammar; None when all are loops or empty."""
        alive = [h for h in row if h.text and not _looped(h, piece)]
        for hypothesis in alive:
            hypothesis.rank = hypothesis.score + self.grammar_weight * self.grammar.score(hypothesis.text)
        # The decode without digits spreads the same probability over fewer tokens: its scores are compared
        # only where the grammar tells the two apart, else the ordinary decode stands.
        ordinary = [h for h in alive if h.source == "decode"]
        words = [h for h in alive if h.source == "words"]
        top = max(ordinary, key=lambda h: h.rank, default=None)
        other = max(words, key=lambda h: h.rank, default=None)
        if top is None or other is None:
            return top or other
        gain = self.grammar.score(other.text) - self.grammar.score(top.text)
        if gain > 0 and other.rank > top.rank:
            return other
        return top

    def _words(self, hypothesis: _Hypothesis, span: Any, piece: Piece) -> list[Word]:
        """Return the words with times (seconds from the start of the piece) and probabilities."""
        out = []
        for text, start, end, probability in _timed(self._net.tokenizer, hypothesis.tokens, span):
            out.append(
                Word(
                    text=text,
                    start_s=round(min(start, piece.seconds), 2),
                    end_s=round(min(max(end, start + 0.02), piece.seconds), 2),
                    probability=round(min(1.0, max(0.0, probability)), 4),
                )
            )
        return out

    # --------------------------------------------------------------------------------- forced scoring

    def _score_rivals(self, encoded: Any, frames: int, pieces: Sequence[Piece], heard: list[Heard]) -> None:
        """Score what else the numbers of each text could be against the same sound."""
        array: NDArray[np.float32] | None = None
        for row, (piece, answer) in enumerate(zip(pieces, heard, strict=True)):
            if not answer.text:
                continue
            rivals = list(self.grammar.rivals(answer.text))
            if not rivals:
                continue
            if array is None:
                array = _as_array(encoded)
            texts = [answer.text] + [answer.text[: r.start] + r.text + answer.text[r.end :] for r in rivals]
            scores = self._forced(array[row], texts, min(_frames(piece), frames))
            answer.doubts = _doubts(answer, rivals, scores)

    def _forced(self, row: NDArray[np.float32], texts: list[str], frames: int) -> list[float]:
        """Return the log probability of each whole text, given the sound."""
        tokens = [self._net.tokenizer.encode(" " + t) for t in texts]
        out: list[float] = []
        for start in range(0, len(tokens), 8):
            group = tokens[start : start + 8]
            tiled = ctranslate2.StorageView.from_array(np.repeat(row[None], len(group), axis=0))
            for result in self._net.align(tiled, group, [frames] * len(group)):
                out.append(float(np.log(np.maximum(result.text_token_probs, 1e-10)).sum()))
        return out


def _has_affinity() -> bool:
    return hasattr(os, "sched_getaffinity")


def _as_array(encoded: Any) -> NDArray[np.float32]:
    with contextlib.suppress(AttributeError):
        encoded = encoded.to_device(ctranslate2.Device.cpu)
    return np.array(encoded.to(ctranslate2.DataType.float32), np.float32)


# ------------------------------------------------------------------------------------------- guards


def _looped(hypothesis: _Hypothesis, piece: Piece) -> bool:
    """Tell whether the model went round in circles or wrote more than anybody can say in that time."""
    text = hypothesis.text.encode()
    if len(text) > 60 and len(text) / len(zlib.compress(text)) > _COMPRESSED_TOO_WELL:
        return True
    if len(hypothesis.tokens) > 12 + _PER_SECOND * max(piece.speech_s, 0.5):
        return True
    words = re.findall(r"[a-z0-9']+", hypothesis.text.lower())
    return any(len(words) >= 4 * n and words[-n:] * 4 == words[-4 * n :] for n in (1, 2, 3, 4, 5, 6))


def _nothing_said(hypothesis: _Hypothesis, no_speech: float, piece: Piece, hint: str) -> bool:
    """Tell whether the words were made up on sound without speech.

    The thresholds for `no_speech` and the score are Whisper's own. Words that are the hint and nothing else
    are what the model prints when it hears nothing; so is a lone filler on hardly any speech.
    """
    if no_speech > 0.6 and hypothesis.score < -1.0:
        return True
    said = re.findall(r"[a-z']+", hypothesis.text.lower())
    if not said and not re.search(r"\d", hypothesis.text):
        return True
    hinted = re.findall(r"[a-z']+", hint.lower())
    if (
        hinted
        and len(said) >= 3
        and " ".join(said) in " ".join(hinted)
        and not re.search(r"\d", hypothesis.text)
    ):
        return True
    return " ".join(said) in _FILLERS and (piece.speech_s < 0.6 or no_speech > 0.3)


_FILLERS = frozenset(
    {
        "you",
        "thank you",
        "thanks for watching",
        "bye",
        "so",
        "the",
        "thank you for watching",
        "i'm sorry",
        "oh",
    }
)


# -------------------------------------------------------------------------------------------- words


def _timed(tokenizer: Tokenizer, tokens: list[int], span: Any) -> Iterator[tuple[str, float, float, float]]:
    """Yield (word with its punctuation, start, end, probability) from an alignment, in seconds."""
    if not tokens or span is None:
        return
    words, parts = tokenizer.split_to_word_tokens([*tokens, tokenizer.eot])
    words, parts = words[:-1], parts[:-1]
    text_at = np.array([pair[0] for pair in span.alignments])
    time_at = np.array([pair[1] for pair in span.alignments])
    jumps = np.pad(np.diff(text_at), (1, 0), constant_values=1).astype(bool)
    times = time_at[jumps] * 0.02
    edges = np.concatenate([[0], np.cumsum([len(p) for p in parts])])
    probabilities = span.text_token_probs
    row: list[list[Any]] = []
    for k, word in enumerate(words):
        a, b = int(edges[k]), int(edges[k + 1])
        start = float(times[min(a, len(times) - 1)])
        end = float(times[min(b, len(times) - 1)])
        probability = float(np.mean(probabilities[a:b])) if b > a else 0.0
        # A mark, and a piece that is written without a space before it, belongs to the word before.
        if row and not word.startswith(" "):
            row[-1][0] += word
            row[-1][2] = max(row[-1][2], end) if re.search(r"\w", word) else row[-1][2]
            if re.search(r"\w", word):
                row[-1][3] = min(row[-1][3], probability)
        elif row and not re.search(r"\w", word):
            row[-1][0] += word.strip()
        else:
            row.append([word.strip(), start, end, probability])
    for text, start, end, probability in row:
        if text:
            yield text, start, end, probability


def _plain(text: str) -> str:
    return " ".join(re.findall(r"[\w.']+", text.lower())).replace(". ", " ").rstrip(".")


def _others(row: list[_Hypothesis], chosen: _Hypothesis, witness: _Hypothesis | None) -> list[Alternative]:
    """Return the other ways to write the piece, best first, without those that differ in marks only."""
    seen = {_plain(chosen.text)}
    out = []
    for hypothesis in sorted(row, key=lambda h: -h.score):
        if hypothesis.text and _plain(hypothesis.text) not in seen:
            seen.add(_plain(hypothesis.text))
            out.append(
                Alternative(text=hypothesis.text, score=round(hypothesis.score, 4), source=hypothesis.source)
            )
    if witness is not None and witness.text:
        # The witness is kept even when it agrees: agreement is evidence too.
        out.append(Alternative(text=witness.text, score=round(witness.score, 4), source="witness"))
    return out


def _doubts(answer: Heard, rivals: Sequence[Any], scores: list[float]) -> list[Doubt]:
    """Group the rivals by the words that they would replace; the margin is a log score per span."""
    places = _places(answer)
    groups: dict[tuple[int, int], list[tuple[str, float]]] = {}
    for rival, score in zip(rivals, scores[1:], strict=True):
        first = next((i for i, (_, b) in enumerate(places) if b > rival.start), None)
        last = next((i for i in range(len(places) - 1, -1, -1) if places[i][0] < rival.end), None)
        if first is None or last is None or last < first:
            continue
        groups.setdefault((first, last), []).append((rival.text, score - scores[0]))
    out = []
    for (first, last), found in sorted(groups.items()):
        found.sort(key=lambda pair: -pair[1])
        out.append(
            Doubt(
                first_word=first,
                last_word=last,
                rivals=[Alternative(text=t, score=round(s, 3), source="align") for t, s in found[:4]],
                margin=round(-found[0][1], 3),
                why="forced scoring",
            )
        )
    return out


def _places(answer: Heard) -> list[tuple[int, int]]:
    """Return the character span of each word in the text."""
    out, at = [], 0
    for word in answer.words:
        start = answer.text.find(word.text, at)
        if start < 0:
            start = at
        out.append((start, start + len(word.text)))
        at = start + len(word.text)
    return out
