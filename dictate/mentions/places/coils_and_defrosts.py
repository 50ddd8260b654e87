"""Coils that were spoken of before, and what is read while a defrost is on.

    coils_and_defrosts(found, words, components)

"The coil has 0 volts on it ... now I got 24.5 at the coil": the coil is still the one spoken of. "Put it in
defrost: 207 across, 4.6 amps": what is fed then, and draws, are the heaters.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.labels import ComponentAt
from dictate.mentions.whose.taken import Found, Taken

_ENDS = frozenset((".", "?", "!", ";"))
_REACH = 90  # words from one talk of a coil to the next
_LEAD = 8
_CONTROL = (18.0, 30.0)
"""Volts of a control circuit fed by a transformer; common practice."""
_NOT_A_COIL = frozenset(
    ("relay", "temperature controller", "control board", "thermostat", "transformer", None)
)
_HEAT_EXCHANGERS = ("condenser", "evaporator", "outdoor", "indoor", "of")
_INTO = frozenset(("in", "into", "a", "the", "on", "forced", "manual", "to", "started"))
_DRAWS = frozenset(("voltage", "current"))
_FANS = frozenset(("evaporator fan motor", "fan motor", "condenser fan motor", "compressor", None))


def coils_and_defrosts(found: Found, words: Sequence[str], components: Sequence[ComponentAt]) -> None:
    """Set the components of readings on a coil named before and of those taken in a defrost, in place."""
    if "coil" in words:
        _coils(found, words, components)
    if "defrost" in words and any(c.name.endswith("heater") for c in components):
        _defrosts(found, words, components)


def _lead(t: Taken, words: Sequence[str]) -> list[str]:
    lead = list(words[max(0, t.start - _LEAD) : t.start])
    return lead[max((i for i, w in enumerate(lead) if w in _ENDS), default=-1) + 1 :]


def _of_a_coil(t: Taken, words: Sequence[str]) -> int | None:
    """Return the word "coil" that a voltage or a resistance is said of, in front of it or right behind."""
    lead = _lead(t, words)
    places = [t.start - len(lead) + j for j, w in enumerate(lead) if w == "coil"]
    behind = next((k for k in range(t.end, min(len(words), t.end + 4)) if words[k] == "coil"), None)
    if behind is not None and {"at", "on", "across"} & set(words[t.end : behind]):
        places.append(behind)
    places = [k for k in places if words[k - 1] not in _HEAT_EXCHANGERS]
    return places[-1] if places else None


def _has_a_coil(c: ComponentAt, k: int) -> bool:
    """Tell whether the coil at word k can be that of a component: a valve's, or one named right before it."""
    return c.name.endswith(("valve", "contactor", "starter")) or 0 <= k - c.end <= 1


def _coils(found: Found, words: Sequence[str], components: Sequence[ComponentAt]) -> None:
    owner: str | None = None
    seen = 0
    for t in found.readings:
        r = t.reading
        if r.quantity not in {"voltage", "resistance"} or r.role != "measured":
            continue
        k = _of_a_coil(t, words)
        if k is None:
            continue
        since = [c for c in components if seen <= c.start < max(k, t.end) + 4 and _has_a_coil(c, k)]
        if r.component not in _NOT_A_COIL or any(c.name == r.component for c in since):
            owner, seen = r.component, t.end
        elif owner is not None and t.start - seen <= _REACH and not since:
            r.component, r.which, seen = owner, None, t.end
        elif (
            r.component is None
            and r.quantity == "voltage"
            and r.value is not None
            and _CONTROL[0] <= r.value <= _CONTROL[1]
            and not since
            and not any("valve" in c.name for c in components)
        ):
            r.component, r.point = "contactor", "coil"


def _defrosts(found: Found, words: Sequence[str], components: Sequence[ComponentAt]) -> None:
    for t in found.readings:
        r = t.reading
        if r.quantity not in _DRAWS or r.component not in _FANS or r.role != "measured":
            continue
        lead = _lead(t, words)
        k = next((j for j in range(len(lead) - 1, 0, -1) if lead[j] == "defrost"), None)
        if k is None or lead[k - 1] not in _INTO:
            continue
        at = t.start - len(lead) + k
        if any(at < c.start < t.end + 3 for c in components):
            continue
        heaters = [c.name for c in components if c.name.endswith("heater")]
        r.component, r.which = "defrost heater" if "defrost heater" in heaters else heaters[-1], None


__all__ = ["coils_and_defrosts"]
