"""What every type of the record shares."""

from pydantic import BaseModel, ConfigDict, Field


class Model(BaseModel):
    """A strict, plain record type: unknown fields are errors, nothing is coerced in silence."""

    model_config = ConfigDict(extra="forbid", validate_assignment=True)


class At(Model):
    """Where something was said: the clip, the span of sound, and the words themselves.

    `start_s` and `end_s` are seconds from the start of the clip, null for a transcript without
    times. `segment` is the index into the record's `transcript`; `first_word` and `last_word`
    (inclusive) index that segment's `words`.
    """

    clip: str | None = None
    start_s: float | None = Field(default=None, ge=0)
    end_s: float | None = Field(default=None, ge=0)
    said_at: str | None = None
    segment: int | None = Field(default=None, ge=0)
    first_word: int | None = Field(default=None, ge=0)
    last_word: int | None = Field(default=None, ge=0)
