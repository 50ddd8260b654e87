"""What is weighed of the evidence on a value: `terms(seen)`.

The evidence by its own names, and where it depends on other evidence what it is then: a judge's odds count
otherwise for a bare value than for one whose unit was said, otherwise for amps than for ohms, otherwise where
a look doubts the value, and from some point on being surer means little.
"""

from __future__ import annotations

_JUDGES = ("net", "encoder")
_MEANT = ("of", "fit", "quantity", "now", "none", "retracted", "not now")
ODDS = frozenset({"both of", *(f"{who} {what}" for who in _JUDGES for what in _MEANT)})
"""The evidence that is the logarithm of odds of a judge."""
_LOW, _HIGH, _SCALE = -6.0, 8.0, 4.0
"""What is beyond these counts as these; and the scale, so that all evidence is of one size."""
_SURE = {"net": 0.5, "encoder": 0.75}
"""On that scale: from here on a judge is sure."""
_WEIGHED_SURE = 1.0


def terms(seen: dict[str, float]) -> dict[str, float]:
    """Return what is weighed, by name."""
    out: dict[str, float] = {}
    quantity, soft, doubts = "", False, []
    for name, much in seen.items():
        if name in ODDS:
            out[name] = (_LOW if much < _LOW else _HIGH if much > _HIGH else much) / _SCALE
            continue
        out[name] = much
        if name.startswith("doubt "):
            doubts.append(name)
        elif name.startswith("quantity "):
            quantity = name
        elif name.startswith("reason "):
            soft = True
    if "weighed" in seen:
        out["weighed"] = seen["weighed"] / _SCALE
        out["weighed: hardly"] = min(seen["weighed"] - _WEIGHED_SURE, 0) / _SCALE
        out["was weighed"] = 1.0
    how = "bare" if "bare" in seen else "unit said"
    for who in _JUDGES:
        if f"{who} of" not in out:
            continue
        of, fit = out[f"{who} of"], out[f"{who} fit"]
        out[f"{who} of: hardly"], out[f"{who} fit: hardly"] = min(of, 0), min(fit, 0)
        out[f"{who} fit: not sure"] = min(fit - _SURE[who], 0)
        out[f"{who} fit: {how}"] = fit
        out[f"{who} of: {quantity}"] = of
        if who == "encoder":
            out[f"{who} of: {how}"] = of
        if soft:
            out[f"{who} fit: reason"] = fit
        if "puts right" in seen:
            out[f"{who} fit: puts right"] = fit
        if doubts:
            out[f"{who} of: doubt"] = of
            if who == "encoder":
                out.update((f"{who} of: {name}", of) for name in doubts)
    if "net of" in out and "encoder of" in out:
        out["least of"] = min(out["net of"], out["encoder of"])
        out["least fit"] = min(out["net fit"], out["encoder fit"])
        out["product"] = out["net fit"] * out["encoder fit"] / 2
    return out


__all__ = ["ODDS", "terms"]
