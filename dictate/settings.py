"""The types of the settings file; `config.py` explains the file and reads it."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel, ConfigDict, Field


class Table(BaseModel):
    """A table of the settings: unknown keys are errors."""

    model_config = ConfigDict(extra="forbid")


class Shop(Table):
    """Who the shop is."""

    name: str | None = None
    address: str | None = None
    jurisdiction: str | None = None
    units: Literal["us", "metric"] | None = None
    currency: str = Field(default="USD", pattern=r"^[A-Z]{3}$")


class Technician(Table):
    """A technician: the name as written, as said, and the certificate."""

    name: str
    said: list[str] = Field(default_factory=list)
    certificate: str | None = None


class Appliance(Table):
    """A machine that the shop knows."""

    name: str
    said: list[str] = Field(default_factory=list)
    type: str | None = None
    model: str | None = None
    serial: str | None = None
    refrigerant: str | None = None
    full_charge: float | None = Field(default=None, gt=0)
    full_charge_unit: Literal["lb", "oz", "g", "kg"] = "lb"
    full_charge_basis: str | None = None
    use: str | None = None


class Customer(Table):
    """A customer: the name as written and as said, the site and its machines."""

    name: str
    said: list[str] = Field(default_factory=list)
    site: str | None = None
    appliance: list[Appliance] = Field(default_factory=list)


class LabourRules(Table):
    """How spoken working time becomes billed hours."""

    step_minutes: int = Field(default=15, ge=1, le=240)
    rounding: Literal["up", "nearest", "none"] = "up"
    minimum_minutes: int = Field(default=0, ge=0, le=1440)


class Watching(Table):
    """How recordings that arrive in a folder become visits."""

    group: Literal["folder", "prefix", "gap", "each"] = "folder"
    gap_minutes: int = Field(default=90, ge=1)
    prefix_separator: str = "_"
    poll_seconds: float = Field(default=2.0, gt=0)
    settle_polls: int = Field(default=2, ge=1)
    tries: int = Field(default=3, ge=1)


class Retention(Table):
    """What happens to the sound after a while; records and hashes are always kept."""

    delete_sound_after_days: int | None = Field(default=None, ge=1)


class Listening(Table):
    """How recordings are heard."""

    model: str | None = None
    speed: Literal["careful", "fast"] = "careful"


class Settings(Table):
    """The whole file."""

    shop: Shop = Field(default_factory=Shop)
    technician: list[Technician] = Field(default_factory=list)
    customer: list[Customer] = Field(default_factory=list)
    labour: LabourRules = Field(default_factory=LabourRules)
    watch: Watching = Field(default_factory=Watching)
    retention: Retention = Field(default_factory=Retention)
    listen: Listening = Field(default_factory=Listening)
