"""What rules of law and safety ask of a refrigerant: its class, its GWP with the basis, its exemptions.

Figures are in vocabulary/refrigerant_data.toml. A refrigerant that is not listed answers None or False; no
rule takes that for a verdict.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from dictate.vocabulary.load import table

PressureClass = Literal["low", "medium", "high", "very-high"]
KG_PER_LB = 0.45359237

OZONE = frozenset({"cfc", "hcfc"})


@dataclass(frozen=True)
class RefrigerantData:
    """One refrigerant's figures; see the vocabulary file for what each means."""

    name: str
    kind: str
    safety: str | None
    pressure: PressureClass | None
    zeotrope: bool
    ar4: float | None
    ar5: float | None
    gravity: float | None
    gwp_tag: str

    @property
    def flammable(self) -> bool:
        """True for the classes that burn: A2L, A2, A3, B2L ..."""
        return bool(self.safety) and not str(self.safety).endswith("1")

    @property
    def highly_flammable(self) -> bool:
        """True for class A3, the hydrocarbons."""
        return bool(self.safety) and str(self.safety).endswith("3")

    @property
    def ozone_depleting(self) -> bool:
        """True for a CFC or HCFC."""
        return self.kind in OZONE

    @property
    def holds_hfc(self) -> bool:
        """True when it holds a regulated HFC."""
        return self.kind == "hfc"

    @property
    def hydrocarbon(self) -> bool:
        """True for R-290, R-600a and their kin."""
        return self.kind == "hc"

    @property
    def exempt_from_venting_rule(self) -> bool:
        """True where 40 CFR 82.154(a)(1) exempts it: CO2 in any use, hydrocarbons in named ones.

        A hydrocarbon is exempt in self-contained food, vending, ice and household equipment; exempt means
        outside the recovery rule, and still flammable.
        """
        return self.kind == "hc" or self.name == "R-744"


@lru_cache(maxsize=128)
def data(name: str | None) -> RefrigerantData | None:
    """Return the figures of a refrigerant by its ASHRAE 34 name, in any capitals; None if unlisted."""
    if not name:
        return None
    key = next((k for k in table("refrigerant_data") if k.upper() == _canonical(name)), None)
    if key is None or key == "gwp":
        return None
    entry = table("refrigerant_data")[key]
    return RefrigerantData(
        name=key,
        kind=entry["kind"],
        safety=entry.get("safety"),
        pressure=entry.get("pressure"),
        zeotrope=entry.get("zeotrope", False),
        ar4=entry.get("ar4"),
        ar5=entry.get("ar5"),
        gravity=entry.get("gravity"),
        gwp_tag=entry.get("tag", "from memory"),
    )


def _canonical(name: str) -> str:
    text = name.strip().upper().replace(" ", "")
    text = text if text.startswith("R-") else "R-" + text.removeprefix("R")
    return {"R-507": "R-507A", "R-1234ZE": "R-1234ZE(E)"}.get(text, text)


def same(a: str | None, b: str | None) -> bool:
    """True when two names mean the same refrigerant (R-507 is R-507A)."""
    return a is not None and b is not None and _canonical(a) == _canonical(b)


def co2_equivalent(name: str | None, kg: float) -> dict[str, float]:
    """Return the CO2 equivalent in kg by basis ("AR4", "AR5") of a mass in kg; {} when no GWP is known."""
    found = data(name)
    if found is None:
        return {}
    return {basis: kg * gwp for basis, gwp in (("AR4", found.ar4), ("AR5", found.ar5)) if gwp is not None}
