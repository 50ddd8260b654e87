"""Words with times, whatever engine made them."""

from pydantic import Field

from dictate.record.base import Model


class Word(Model):
    """One written word: times in seconds from the start of its clip, probability 0 to 1.

    Both are null where the source has none (a typed transcript). `as_heard` is the recogniser's own
    word where a trade word was put right afterwards; null means that the word is unchanged.
    """

    text: str
    start_s: float | None = None
    end_s: float | None = None
    probability: float | None = Field(default=None, ge=0, le=1)
    as_heard: str | None = None


class Alternative(Model):
    """Another way the same sound can be written, with the log score that it got.

    `source` says where it comes from: `decode` (n-best of the first decode), `words` (the decode with
    digit tokens suppressed), `witness` (another model), `align` (forced scoring of a confusable).
    """

    text: str
    score: float | None = None
    source: str


class Doubt(Model):
    """The evidence about a span of words with a value: how many decodes agree, what else it may be.

    `first_word` and `last_word` (inclusive) index the segment's words. `support` is the share, 0 to 1, of the
    decodes' probability that has the same value, null when there was one decode only. `rivals` are other
    wordings of just that span, each with its forced score (source `align`) or its share of the decodes
    (`decode`, `words`, `witness`). `margin` is the log-score lead, in nats, of the written words over the
    best rival that was scored (negative when a rival scored better), null when none was.
    """

    first_word: int
    last_word: int
    rivals: list[Alternative] = Field(default_factory=list)
    margin: float | None = None
    support: float | None = Field(default=None, ge=0, le=1)
    why: str = ""


class Segment(Model):
    """One stretch of speech as written down, in the order of the visit."""

    clip: str
    start_s: float | None = None
    end_s: float | None = None
    text: str
    words: list[Word] = Field(default_factory=list)
    alternatives: list[Alternative] = Field(default_factory=list)
    doubts: list[Doubt] = Field(default_factory=list)
    snr_db: float | None = None
    score: float | None = None
    """Mean log probability of a token under the decode that won; null where the source has none."""
    no_speech: float | None = None
    """The recogniser's own belief, 0 to 1, that nobody speaks here."""
    source: str | None = None
    """Which decode won: `decode` or `words`; null for a transcript.

    Word probabilities come from a pass that would rather write digits: those of number words in a segment of
    the source `words` are far too low, and say nothing about the value.
    """
