"""The lines of steps.toml as patterns."""

from __future__ import annotations

from functools import cache
from typing import Any

from dictate.mentions.patterns import Matcher, compile_pattern
from dictate.vocabulary.load import table


@cache
def matchers() -> tuple[Matcher, Matcher, dict[str, tuple[str, ...]], dict[str, str]]:
    """Return the matchers for what is said and what is not, the near words and the components by step.

    Labels end in "?" for the lines of `near`, in "*" for those of `named`, in "!" for those of `denied`
    among what is said and for those of `never` among what is not.
    """
    data = dict(table("steps"))
    lists: dict[str, Any] = data.pop("lists")
    said, unsaid = [], []
    near: dict[str, tuple[str, ...]] = {}
    component: dict[str, str] = {}
    for code, entry in data.items():
        said += [compile_pattern(code, line, lists) for line in entry["said"]]
        said += [compile_pattern(f"{code}?", line, lists) for line in entry.get("near", [])]
        said += [compile_pattern(f"{code}*", line, lists) for line in entry.get("named", [])]
        said += [compile_pattern(f"{code}!", line, lists) for line in entry.get("denied", [])]
        unsaid += [compile_pattern(code, line, lists) for line in entry.get("not_said", [])]
        unsaid += [compile_pattern(f"{code}!", line, lists) for line in entry.get("never", [])]
        near[code] = tuple(entry.get("near_words", ()))
        if "component" in entry:
            component[code] = entry["component"]
    return Matcher(said), Matcher(unsaid), near, component


@cache
def far_words(code: str) -> tuple[str, ...]:
    """Return the words beside which the lines of a step mean something else."""
    return tuple(table("steps")[code].get("far", ()))
