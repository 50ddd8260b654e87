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
    """A span of words in doubt: what forced scoring or the witness said about it.

    `first_word` and `last_word` (inclusive) index the segment's words. `rivals` are other wordings of just
    that span; `margin` is the log-score lead per token of the written words over the best rival (negative
    when a rival scored better), null when it was not measured.
    """

    first_word: int
    last_word: int
    rivals: list[Alternative] = Field(default_factory=list)
    margin: float | None = None
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
    """Which decode won: `decode` or `words`; null for a transcript."""
