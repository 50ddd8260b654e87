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
from dataclasses import replace
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
from dictate.record.transcript import Alternative, Word
from dictate.speech import hearing
from dictate.speech.engine import Device, Grammar, Heard, NeutralGrammar, Piece, Speed
from dictate.speech.models import Model
from dictate.speech.ranking import (
    PER_SECOND,
    STATE,
    Ballot,
    Hypothesis,
    comparable,
    looped,
    others,
    with_margins,
)

_RATE = 16_000
_HOP = 160  # samples per spectrogram frame
_FULL = 3000  # frames of the model's own 30 s window
_SHORT = 1500
"""Frames of the window that a piece of at most ten seconds gets. A third of the cost of the full one; the
model needs about five seconds of silence after the speech to know that it is over, and loops with less."""
_SHORT_FITS = 1040
_BEAM = 5
_WITNESS_BEST = 3
_DIGIT_OR_MONEY = re.compile(r"[\d$£€¥¢₹]")
_UNWRITTEN_S = 1.5
"""A piece ends soon after its last word; more sound than this behind it means that words were left out."""


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
    ) -> tuple[list[list[Hypothesis]], list[float]]:
        """Decode a batch; return the n best of each piece, and how sure the model is that nobody speaks."""
        prompt = self.prompt(hint)
        # A piece cannot hold more words than fit into its seconds; a loop is cut short by that as well.
        room = max(24, int(max(p.seconds for p in pieces) * PER_SECOND) + 16)
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
                row.append(Hypothesis(self.tokenizer.decode(tokens).strip(), tokens, float(score), source))
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
        witness: Model | None = None,
        batch: int = 0,
    ) -> None:
        self.speed = speed
        self.hint = hint
        self.grammar: Grammar = grammar or NeutralGrammar()
        threads = threads or min(
            4, max(1, len(os.sched_getaffinity(0)) if _has_affinity() else os.cpu_count() or 1)
        )
        self._net = _Network(model, device, threads, language)
        self._language = language if self._net.multilingual else "en"
        self._witness = (
            _Network(witness, device, threads, "en") if witness is not None and speed == "careful" else None
        )
        # Measured on one H100: 32 pieces at once are fastest for one decode, 8 for two with five results.
        best = 4 if self._net.device == "cpu" else 32 if speed == "fast" else 8
        self._batch = batch or best

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
            "method": f"{STATE}-{hearing.version()}",
        }
        if self._witness is not None:
            out["witness"] = self._witness.model.id
            out["witness_sha256"] = self._witness.model.sha256
        if self.speed == "careful":
            out["grammar"] = self.grammar.version
        return out

    def hear(self, pieces: Sequence[Piece]) -> list[Heard]:
        """Write down the pieces, in order, one answer each."""
        out = self._both_windows(pieces)
        # Words that were left out at the end are listened for once more, on their own.
        rest: dict[int, Piece] = {}
        for n, (piece, heard) in enumerate(zip(pieces, out, strict=True)):
            start = self._unwritten(heard.words, piece)
            if start > 0:
                samples = piece.samples[int(start * _RATE) :]
                rest[n] = replace(piece, samples=samples, speech_s=len(samples) / _RATE)
        for n, tail in zip(rest, self._both_windows(list(rest.values())), strict=True):
            if tail.text:
                out[n] = _appended(out[n], tail, pieces[n].seconds - rest[n].seconds)
        return out

    def _both_windows(self, pieces: Sequence[Piece]) -> list[Heard]:
        """Listen in the short window where a piece fits, else or after a loop in the full one."""
        out = [Heard(source="loop")] * len(pieces)
        for frames in (_SHORT, _FULL):
            group = [
                n
                for n, piece in enumerate(pieces)
                if out[n].source == "loop" and (frames == _FULL or _frames(piece) <= _SHORT_FITS)
            ]
            # One at a time in the full window: it is rare, and a batch of it would set the peak of memory.
            step = 1 if frames == _FULL and self._net.device == "cpu" else max(1, len(group))
            for at in range(0, len(group), step):
                some = group[at : at + step]
                for n, heard in zip(some, self._hear([pieces[n] for n in some], frames), strict=True):
                    out[n] = heard
        return [h if h.source != "loop" else Heard(source="nothing", no_speech=h.no_speech) for h in out]

    def _hear(self, pieces: Sequence[Piece], frames: int) -> list[Heard]:
        net = self._net
        encoded = net.encode(pieces, frames)
        careful = self.speed == "careful"
        rows, no_speech = net.generate(encoded, pieces, self.hint, "decode", _BEAM if careful else 1)
        second: list[list[Hypothesis]] = [[] for _ in pieces]
        if careful:
            more, _ = net.generate(encoded, pieces, self.hint, "words", _BEAM, words_only=True)
            rows = [a + b for a, b in zip(rows, more, strict=True)]
        if self._witness is not None:
            other = self._witness.encode(pieces, frames)
            second, _ = self._witness.generate(other, pieces, "", "witness", _WITNESS_BEST)
            more, _ = self._witness.generate(
                other, pieces, "", "witness words", _WITNESS_BEST, words_only=True
            )
            second = [a + b for a, b in zip(second, more, strict=True)]
        ballots = []
        for row, listeners, piece in zip(rows, second, pieces, strict=True):
            alive = [h for h in row if h.text and not looped(h, piece.speech_s)]
            heard = [h for h in listeners if h.text and not looped(h, piece.speech_s)]
            ballot = Ballot(alive, heard, self.grammar)
            if careful:
                ballot.with_homophones(net.tokenizer.encode)
            ballots.append(ballot)
        chosen = [ballot.best() if careful else next(iter(ballot.candidates), None) for ballot in ballots]
        spans = self._spans(encoded, chosen, pieces, frames)
        longer = self._longer(chosen, spans, ballots, pieces)
        if longer:
            chosen = [longer.get(n, h) for n, h in enumerate(chosen)]
            spans = self._spans(encoded, chosen, pieces, frames)
        out: list[Heard] = []
        for n, (piece, ballot, hypothesis) in enumerate(zip(pieces, ballots, chosen, strict=True)):
            quiet = round(no_speech[n], 4)
            if hypothesis is None:
                circled = any(h.text for h in rows[n])
                out.append(Heard(source="loop" if circled else "nothing", no_speech=quiet))
            elif _nothing_said(hypothesis, quiet, piece, self.hint):
                out.append(Heard(source="nothing", no_speech=quiet, score=round(hypothesis.score, 4)))
            else:
                words = self._words(hypothesis, spans[n], piece)
                out.append(
                    Heard(
                        text=hypothesis.text,
                        words=words,
                        alternatives=others(ballot, hypothesis) if careful else [],
                        doubts=ballot.doubts(hypothesis, words) if careful else [],
                        score=round(hypothesis.score, 4),
                        no_speech=quiet,
                        source=hypothesis.source,
                    )
                )
        if careful:
            self._score_rivals(encoded, frames, pieces, out)
        return out

    def _spans(
        self, encoded: Any, chosen: Sequence[Hypothesis | None], pieces: Sequence[Piece], frames: int
    ) -> list[Any]:
        """Return the alignment of each chosen text with its sound."""
        if not any(chosen):
            return [None] * len(chosen)
        tokens = [h.tokens if h is not None else [] for h in chosen]
        return self._net.align(encoded, tokens, [min(_frames(p), frames) for p in pieces])

    # ------------------------------------------------------------------------------------- choosing

    def _longer(
        self,
        chosen: Sequence[Hypothesis | None],
        spans: Sequence[Any],
        ballots: Sequence[Ballot],
        pieces: Sequence[Piece],
    ) -> dict[int, Hypothesis]:
        """Return a longer candidate for each piece whose chosen text stops well before the speech does."""
        out = {}
        for n, (hypothesis, piece) in enumerate(zip(chosen, pieces, strict=True)):
            if hypothesis is None or self._unwritten(self._words(hypothesis, spans[n], piece), piece) <= 0:
                continue
            longer = ballots[n].best_longer(hypothesis)
            if longer is not None:
                out[n] = longer
        return out

    @staticmethod
    def _unwritten(words: Sequence[Word], piece: Piece) -> float:
        """Return where the speech without words begins, in seconds from the start of the piece, or 0."""
        if not words:
            return 0.0
        start, end = words[-1].start_s or 0.0, words[-1].end_s or 0.0
        # The alignment stretches the last word over whatever follows it; no word lasts a second.
        end = min(end, start + 1.0)
        return end if piece.seconds - end > _UNWRITTEN_S else 0.0

    def _words(self, hypothesis: Hypothesis, span: Any, piece: Piece) -> list[Word]:
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
            rivals = comparable(answer.text, self.grammar.rivals(answer.text)) if answer.text else []
            if not rivals:
                continue
            if array is None:
                array = _as_array(encoded)
            texts = [answer.text[:start] + text + answer.text[end:] for start, end, text in rivals]
            scores = self._forced(array[row], [answer.text, *texts], min(_frames(piece), frames))
            leads = [score - scores[0] for score in scores[1:]]
            answer.doubts = with_margins(answer.doubts, answer.text, answer.words, rivals, leads)

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


def _nothing_said(hypothesis: Hypothesis, no_speech: float, piece: Piece, hint: str) -> bool:
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


def _appended(first: Heard, tail: Heard, offset: float) -> Heard:
    """Return one answer of two that follow each other; the second's times count from `offset` seconds."""

    def moved(value: float | None) -> float | None:
        return None if value is None else round(value + offset, 2)

    words = [w.model_copy(update={"start_s": moved(w.start_s), "end_s": moved(w.end_s)}) for w in tail.words]
    shift = len(first.words)
    doubts = [
        d.model_copy(update={"first_word": d.first_word + shift, "last_word": d.last_word + shift})
        for d in tail.doubts
    ]

    def joined(one: str, two: str, like: Alternative) -> Alternative:
        return like.model_copy(update={"text": f"{one} {two}"})

    # Only the witness has to be whole: the others are single wordings of one part or the other.
    alternatives = [joined(a.text, tail.text, a) for a in first.alternatives if a.source != "witness"]
    alternatives += [joined(first.text, a.text, a) for a in tail.alternatives if a.source != "witness"]
    heard = [next((a for a in h.alternatives if a.source == "witness"), None) for h in (first, tail)]
    if heard[0] is not None and heard[1] is not None:
        alternatives.append(joined(heard[0].text, heard[1].text, heard[0]))
    return Heard(
        text=f"{first.text} {tail.text}",
        words=[*first.words, *words],
        alternatives=alternatives,
        doubts=[*first.doubts, *doubts],
        score=min(s for s in (first.score, tail.score, 0.0) if s is not None),
        no_speech=first.no_speech,
        source=first.source,
    )
