"""The shop's own facts and settings, and where each value comes from.

One TOML file says who the shop is, who its technicians and customers are, how labour is rounded and where
recordings arrive. Values are looked up in this order, the later one wins:

1. the defaults below;
2. the user's file (`dictate.toml` in the settings folder of the system, see `dictate config`);
3. the project's file: `dictate.toml` in the working folder or the nearest folder above it;
4. the file named by `--config` or by the environment variable DICTATE_CONFIG;
5. environment variables such as DICTATE_SHOP_NAME or DICTATE_LABOUR_STEP_MINUTES;
6. what is given on the command line.

An unknown key is an error: a misspelt setting must not be ignored in silence. Lists (technicians,
customers) are replaced as a whole by a later file, never mixed.

    [shop]
    name = "Northwind Cold"
    jurisdiction = "US"            # applies the refrigerant rules of the USA
    units = "us"

    [[technician]]
    name = "A. Sample"
    said = ["Al", "Sample"]        # how the name comes up in a narration
    certificate = "TYPE-II 0001"

    [[customer]]
    name = "Harbour Kitchen"
    said = ["harbour", "the harbour kitchen"]
    site = "12 Quay Road"
    [[customer.appliance]]
    name = "walk-in freezer"
    said = ["big freezer"]
    model = "WF-20"
    serial = "A100"
    refrigerant = "R-404A"
    full_charge = 18.0
    full_charge_unit = "lb"
    full_charge_basis = "maker's figure"
    use = "commercial refrigeration"

    [labour]
    step_minutes = 15              # bill in steps of a quarter of an hour
    rounding = "up"                # up, nearest or none
"""

from __future__ import annotations

import os
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from dictate.errors import RecordError

if TYPE_CHECKING:
    from pydantic import BaseModel

FILE_NAME = "dictate.toml"
ENVIRONMENT_PREFIX = "DICTATE_"


def _models() -> type[BaseModel]:
    """Build the settings types; pydantic is imported here so that the command line starts without it."""
    from dictate.settings import Settings

    return Settings


@dataclass
class Loaded:
    """The settings, and for each dotted key the place that its value comes from."""

    settings: Any
    origin: dict[str, str] = field(default_factory=dict)
    files: list[tuple[str, Path, bool]] = field(default_factory=list)


def user_file() -> Path:
    """Return where the user's own settings file belongs on this system."""
    from platformdirs import user_config_path

    return user_config_path("dictate") / FILE_NAME


def project_file(start: Path) -> Path | None:
    """Return the nearest `dictate.toml` in a folder or above it."""
    for folder in (start, *start.parents):
        if (folder / FILE_NAME).is_file():
            return folder / FILE_NAME
    return None


def load(
    explicit: Path | None = None,
    *,
    start: Path | None = None,
    environment: Mapping[str, str] | None = None,
    flags: Mapping[str, Any] | None = None,
) -> Loaded:
    """Read the settings by the rules above. Raises RecordError that names the file and the key."""
    from pydantic import ValidationError

    env = os.environ if environment is None else environment
    named = explicit or (Path(env["DICTATE_CONFIG"]) if env.get("DICTATE_CONFIG") else None)
    places: list[tuple[str, Path | None]] = [
        ("user file", user_file()),
        ("project file", project_file((start or Path.cwd()).resolve())),
        ("named file", named),
    ]
    if named is not None and not named.is_file():
        raise RecordError(f"no settings file at {named}.", "Check --config or DICTATE_CONFIG.")
    merged: dict[str, Any] = {}
    origin: dict[str, str] = {}
    files: list[tuple[str, Path, bool]] = []
    for kind, path in places:
        if path is None:
            continue
        there = path.is_file()
        files.append((kind, path, there))
        if there:
            data = _read(path)
            _validate(data, str(path))
            _merge(merged, data, f"{kind} {path}", origin)
    for name, text in sorted(env.items()):
        key = _key_of(name)
        if key is not None:
            _put(merged, key, text, f"environment {name}", origin)
    for dotted, given in (flags or {}).items():
        if given is not None:
            _put(merged, tuple(dotted.split(".")), given, "command line", origin)
    try:
        settings = _models().model_validate(merged)
    except ValidationError as error:
        raise RecordError(_explain(error, "the settings"), "Mend it, or see 'dictate config'.") from None
    return Loaded(settings, origin, files)


def _read(path: Path) -> dict[str, Any]:
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except tomllib.TOMLDecodeError as error:
        raise RecordError(f"{path}: {error}.", "Mend that line.") from None
    except (OSError, UnicodeDecodeError) as error:
        raise RecordError(f"{path} cannot be read: {error}.", "Check its permissions and encoding.") from None


def _validate(data: dict[str, Any], where: str) -> None:
    from pydantic import ValidationError

    try:
        _models().model_validate(data)
    except ValidationError as error:
        raise RecordError(_explain(error, where), "Mend it, or see 'dictate config'.") from None


def _explain(error: Any, where: str) -> str:
    first = error.errors()[0]
    key = ".".join(str(part) for part in first["loc"])
    if first["type"] == "extra_forbidden":
        return f"{where}: unknown key {key}."
    return f"{where}: {key}: {first['msg']}."


def _merge(into: dict[str, Any], data: dict[str, Any], source: str, origin: dict[str, str]) -> None:
    for key, given in data.items():
        if isinstance(given, dict):
            table = into.setdefault(key, {})
            for inner, value in given.items():
                table[inner] = value
                origin[f"{key}.{inner}"] = source
        else:
            into[key] = given
            origin[key] = source


def _put(into: dict[str, Any], key: tuple[str, ...], value: Any, source: str, origin: dict[str, str]) -> None:
    into.setdefault(key[0], {})[key[1]] = value
    origin[".".join(key)] = source


def _key_of(name: str) -> tuple[str, str] | None:
    """Return the (table, key) that an environment variable sets, if it is one of ours."""
    if not name.startswith(ENVIRONMENT_PREFIX):
        return None
    for table, model in _tables().items():
        prefix = f"{ENVIRONMENT_PREFIX}{table.upper()}_"
        if name.startswith(prefix) and name[len(prefix) :].lower() in model.model_fields:
            return table, name[len(prefix) :].lower()
    return None


def _tables() -> dict[str, type[BaseModel]]:
    from pydantic import BaseModel

    found: dict[str, type[BaseModel]] = {}
    for name, info in _models().model_fields.items():
        kind = info.annotation
        if isinstance(kind, type) and issubclass(kind, BaseModel):
            found[name] = kind
    return found
