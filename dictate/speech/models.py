"""Find the speech model's files, and make sure that they are the published ones.

Looked for in this order: an explicit path; a models folder; an installed weights package; pieces from
packages, joined once into the user's cache; the hub, only when that was allowed. When nothing is found, the
error lists every place that was tried and the exact command to type. Nothing here imports the recogniser or
the packages.

The register is `models/models.toml` in a checkout and `dictate/_data/models.toml` in an installed wheel. Own
weights can be used by path; a folder that holds its own `model.toml` (with a `[files]` table as in the
register) is checked against that.
"""

from __future__ import annotations

import contextlib
import hashlib
import importlib.metadata
import json
import os
import shutil
import sys
import tempfile
import tomllib
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

import platformdirs

from dictate.errors import ModelError

ENV_FOLDER = "DICTATE_MODELS"
"""Names a folder that holds one folder per model; looked at before the checkout's own `models/`."""

_BLOCK = 1 << 20
_NEEDED = ("model.bin", "config.json", "tokenizer.json")
"""What a folder of own weights must hold at the very least."""


@dataclass(frozen=True)
class FileFacts:
    """What a file of a model must be: its size in bytes and its SHA-256 in hex."""

    size: int
    sha256: str


@dataclass(frozen=True)
class KnownModel:
    """One entry of the register."""

    name: str
    about: str
    facts: dict[str, str]
    files: dict[str, FileFacts]
    sources: tuple[dict[str, Any], ...]


@dataclass(frozen=True)
class Model:
    """A model that was found and verified.

    `folder` holds the files; `id` is the name in the register or `path:FOLDER` for own weights; `sha256` is
    the hash of `model.bin`; `where` says in words which place it came from.
    """

    id: str
    folder: Path
    sha256: str
    where: str
    languages: str = "multilingual"


@dataclass(frozen=True)
class Register:
    """The register as read: where it lies, the default's and the witness's name, and the models."""

    file: Path
    default: str
    witness: str
    models: dict[str, KnownModel]


@dataclass
class _Search:
    """What one call looked at, for the error at its end."""

    tried: list[str] = field(default_factory=list)


def register_file() -> Path:
    """Return the path of the register: the checkout's, else the installed wheel's."""
    package = Path(__file__).resolve().parents[1]
    for candidate in (package.parent / "models" / "models.toml", package / "_data" / "models.toml"):
        if candidate.is_file():
            return candidate
    raise ModelError(
        "the register of models (models.toml) is missing.", "Reinstall the package: pip install dictate"
    )


@cache
def register(file: Path | None = None) -> Register:
    """Read the register. Raise ModelError when it is broken."""
    path = file or register_file()
    try:
        raw = tomllib.loads(path.read_text(encoding="utf-8"))
        models = {name: _known(name, entry) for name, entry in raw["model"].items()}
        default, witness = raw["default"], raw["witness"]
        if default not in models or witness not in models:
            raise KeyError("default or witness is not in the register")
    except (OSError, ValueError, KeyError, TypeError, AttributeError) as error:
        what = f"the register of models {path} is broken ({error})."
        raise ModelError(what, "Mend or reinstall it.") from None
    return Register(path, default, witness, models)


def _known(name: str, entry: dict[str, Any]) -> KnownModel:
    files = {k: FileFacts(int(v["size"]), str(v["sha256"])) for k, v in entry["files"].items()}
    facts = {k: v for k, v in entry.items() if isinstance(v, str)}
    return KnownModel(name, facts.get("about", ""), facts, files, tuple(entry.get("source", [])))


def models_folders() -> list[Path]:
    """Return the folders that may hold `NAME/model.bin`, in the order in which they are looked at."""
    out = []
    if named := os.environ.get(ENV_FOLDER):
        out.append(Path(named).expanduser())
    if register_file().parent.name == "models":
        out.append(register_file().parent)
    out.append(Path(platformdirs.user_data_dir("dictate", appauthor=False)) / "models")
    return out


def cache_folder() -> Path:
    """Return the folder of the user's cache into which pieces are joined."""
    return Path(platformdirs.user_cache_dir("dictate", appauthor=False)) / "models"


def find(name_or_path: str | None = None, *, allow_download: bool = False, trust: bool = True) -> Model:
    """Find and verify a model by its name in the register or by the path of its folder.

    `trust` uses hashes that were worked out before for the same path, size and times; without it every byte
    is read again. Raise ModelError when it is missing, or when one byte differs from the published files.
    """
    if not trust:
        _forget_hashes()
    known = register()
    wanted = name_or_path or known.default
    path = Path(wanted).expanduser()
    entry = known.models.get(wanted)
    if entry is None:  # a folder of the same name as a known model is written "./base"
        if path.is_dir():
            return _own_folder(path)
        if path.is_file():
            raise ModelError(f"{path} is a file.", "Name the folder that holds model.bin and config.json.")
        names = ", ".join(known.models)
        raise ModelError(
            f"there is no model named {wanted!r} and no such folder.",
            f"Known models: {names}; type: dictate models",
        )
    search = _Search()
    for step in (_from_folders, _from_packages, _from_cache, _from_hub):
        found = step(entry, search, allow_download)
        if found is not None:
            return found
    raise ModelError(
        f"the model {entry.name!r} was not found; looked at: {'; '.join(search.tried)}.",
        f"Type: {how_to_get(entry)}",
    )


def installed(name: str) -> bool:
    """Tell whether a model of the register can be had without a download, without hashing it."""
    entry = register().models.get(name)
    if entry is None:
        return False
    if any((folder / name / "model.bin").is_file() for folder in models_folders()):
        return True
    if (_cached(entry) / "model.bin").is_file():
        return True
    return any(not _missing_packages(source) for source in entry.sources if source["kind"] != "hub")


def how_to_get(entry: KnownModel) -> str:
    """Return the exact command that brings this model."""
    packages = [p for s in entry.sources if s["kind"] in ("package", "parts") for p in _packages(s)]
    if packages:
        pip = "pip" if shutil.which("pip") else f"{sys.executable} -m pip"
        return f"{pip} install {' '.join(packages)}"
    return f"dictate models get {entry.name} --allow-download"


# ------------------------------------------------------------------------------------------- places


def _own_folder(folder: Path) -> Model:
    """Check a folder that was named: the published files of a known model, or own weights."""
    missing = [n for n in _NEEDED if not (folder / n).is_file()]
    if missing:
        raise ModelError(
            f"the model folder {folder} lacks {', '.join(missing)}.",
            "Name a folder with a CTranslate2 Whisper model, or type: dictate models",
        )
    own = folder / "model.toml"
    if own.is_file():
        try:
            table = tomllib.loads(own.read_text(encoding="utf-8"))["files"]
            files = {k: FileFacts(int(v["size"]), str(v["sha256"])) for k, v in table.items()}
        except (OSError, tomllib.TOMLDecodeError, UnicodeDecodeError, KeyError, TypeError) as error:
            raise ModelError(f"{own} is broken ({error}).", "It needs a [files] table.") from None
        _verify(folder, files, f"{own.name} beside it", "Copy the folder again.")
        sha = file_hash(folder / "model.bin")
        return Model(f"path:{folder.resolve().name}", folder, sha, f"folder {folder}")
    size = (folder / "model.bin").stat().st_size
    for entry in register().models.values():
        same_weights = entry.files["model.bin"].size == size
        if same_weights or folder.name == entry.name:
            advice = (
                f"Copy it again, or type: {how_to_get(entry)}. Own weights need a model.toml with their "
                "hashes in that folder."
            )
            _verify(folder, entry.files, f"the published {entry.name}", advice)
            languages = entry.facts.get("languages", "multilingual")
            return Model(entry.name, folder, entry.files["model.bin"].sha256, f"folder {folder}", languages)
    return Model(f"path:{folder.resolve().name}", folder, file_hash(folder / "model.bin"), f"folder {folder}")


def _model(entry: KnownModel, folder: Path, where: str) -> Model:
    languages = entry.facts.get("languages", "multilingual")
    return Model(entry.name, folder, entry.files["model.bin"].sha256, where, languages)


def _from_folders(entry: KnownModel, search: _Search, _: bool) -> Model | None:
    for parent in models_folders():
        folder = parent / entry.name
        if (folder / "model.bin").is_file():
            advice = f"Delete it, or copy it again: {folder}"
            _verify(folder, entry.files, f"the published {entry.name}", advice)
            return _model(entry, folder, f"folder {folder}")
        search.tried.append(f"folder {folder}")
    return None


def _from_packages(entry: KnownModel, search: _Search, _: bool) -> Model | None:
    for source in entry.sources:
        if source["kind"] != "package":
            continue
        missing = _missing_packages(source)
        if missing:
            search.tried += [f"package {name} (not installed)" for name in missing]
            continue
        package = _packages(source)[0]
        folder = _located(_bare(package), source["folder"])
        again = f"Type: pip install --force-reinstall --no-deps {package}"
        _verify(folder, entry.files, f"the published {entry.name}", again)
        return _model(entry, folder, f"package {package}")
    return None


def _cached(entry: KnownModel) -> Path:
    return cache_folder() / f"{entry.name}-{entry.files['model.bin'].sha256[:12]}"


def _from_cache(entry: KnownModel, search: _Search, _: bool) -> Model | None:
    """Use the joined copy in the cache; join it first when the packages are there."""
    folder = _cached(entry)
    if folder.is_dir():
        advice = f"Type: dictate models get {entry.name} (it makes a new copy)"
        _verify(folder, entry.files, f"the published {entry.name}", advice)
        return _model(entry, folder, f"cache {folder}")
    search.tried.append(f"cache {folder}")
    for source in entry.sources:
        if source["kind"] != "parts":
            continue
        missing = _missing_packages(source)
        if missing:
            search.tried += [f"package {name} (not installed)" for name in missing]
            continue
        _join(entry, source, folder)
        return _model(entry, folder, f"packages {', '.join(_packages(source))}, joined in {folder}")
    return None


def _from_hub(entry: KnownModel, search: _Search, allow_download: bool) -> Model | None:
    for source in entry.sources:
        if source["kind"] != "hub":
            continue
        if not allow_download:
            search.tried.append(f"hub {source['repository']} (only with --allow-download)")
            continue
        folder = _cached(entry)
        with _new_folder(folder) as temporary:
            try:
                import huggingface_hub

                huggingface_hub.snapshot_download(
                    source["repository"],
                    revision=source["revision"],
                    local_dir=temporary,
                    allow_patterns=list(entry.files),
                )
            except Exception as error:  # the hub's client raises whatever its transport raises
                search.tried.append(f"hub {source['repository']} ({type(error).__name__})")
                return None
            _verify(temporary, entry.files, f"the published {entry.name}", "Try again later.", remember=False)
            shutil.rmtree(temporary / ".cache", ignore_errors=True)
        return _model(entry, folder, f"hub {source['repository']}")
    return None


def renew(name: str, *, allow_download: bool = False) -> Model:
    """Throw the joined copy in the cache away, if there is one, and find the model again."""
    entry = register().models.get(name)
    if entry is None:
        return find(name, allow_download=allow_download)
    folder = _cached(entry)
    if folder.exists():
        try:
            shutil.rmtree(folder)
        except OSError as error:
            what = f"{folder} cannot be removed ({error.strerror})."
            raise ModelError(what, "Remove it by hand.") from None
    return find(name, allow_download=allow_download)


# --------------------------------------------------------------------------------------- packages


def _packages(source: dict[str, Any]) -> list[str]:
    return [source["package"]] if source["kind"] == "package" else list(source.get("packages", []))


def _bare(requirement: str) -> str:
    return requirement.split("==")[0]


def _missing_packages(source: dict[str, Any]) -> list[str]:
    out = []
    for requirement in _packages(source):
        try:
            importlib.metadata.distribution(_bare(requirement))
        except importlib.metadata.PackageNotFoundError:
            out.append(requirement)
    return out


def _located(package: str, inside: str) -> Path:
    return Path(str(importlib.metadata.distribution(package).locate_file(inside)))


def _join(entry: KnownModel, source: dict[str, Any], folder: Path) -> None:
    """Join the pieces into `folder`: into a temporary one first, verified, then renamed in one step."""
    again = f"Type: pip install --force-reinstall --no-deps {' '.join(_packages(source))}"
    with _new_folder(folder) as temporary:
        for name, pieces in source["join"].items():
            with (temporary / name).open("wb") as out:
                for package, inside in pieces:
                    piece = _located(package, inside)
                    try:
                        with piece.open("rb") as data:
                            shutil.copyfileobj(data, out, _BLOCK)
                    except FileNotFoundError:
                        raise ModelError(f"{package} lacks the file {inside}.", again) from None
        _verify(temporary, entry.files, f"the published {entry.name}", again, remember=False)
    # The bytes were hashed a moment ago; the rename changed neither them nor their times.
    for name, facts in entry.files.items():
        _remember(folder / name, facts.sha256)


class _new_folder(contextlib.AbstractContextManager[Path]):  # noqa: N801 - reads as the statement it is
    """A temporary folder beside `target` that becomes `target` in one rename, or goes away again."""

    def __init__(self, target: Path) -> None:
        self.target = target

    def __enter__(self) -> Path:
        try:
            self.target.parent.mkdir(parents=True, exist_ok=True)
            self.temporary = Path(tempfile.mkdtemp(prefix=f".{self.target.name}-", dir=self.target.parent))
        except OSError as error:
            raise self._unwritable(error) from None
        return self.temporary

    def __exit__(self, kind: object, error: object, trace: object) -> None:
        try:
            if error is None:
                self.temporary.chmod(0o755)
                try:
                    self.temporary.rename(self.target)
                except OSError:
                    # Another run was faster; its copy went through the same check.
                    if not (self.target / "model.bin").is_file():
                        raise
        except OSError as failed:
            raise self._unwritable(failed) from None
        finally:
            shutil.rmtree(self.temporary, ignore_errors=True)
        if isinstance(error, OSError):
            raise self._unwritable(error) from None

    def _unwritable(self, error: OSError) -> ModelError:
        return ModelError(
            f"the model cannot be put together in {self.target.parent} ({error.strerror or error}).",
            "Make room or set XDG_CACHE_HOME to a folder with 200 MB to spare.",
        )


# ------------------------------------------------------------------------------------------ hashes


def _verify(
    folder: Path, files: dict[str, FileFacts], what: str, advice: str, *, remember: bool = True
) -> None:
    """Raise ModelError unless every file has its size and its hash."""
    for name, facts in files.items():
        path = folder / name
        try:
            size = path.stat().st_size
        except FileNotFoundError:
            raise ModelError(f"the model file {path} is missing.", advice) from None
        except OSError as error:
            raise ModelError(f"the model file {path} cannot be read ({error.strerror}).", advice) from None
        right = size == facts.size and file_hash(path, remember=remember) == facts.sha256
        if not right:
            raise ModelError(f"the model file {path} is damaged: it is not that of {what}.", advice)


def file_hash(path: Path, *, remember: bool = True, progress: Callable[[int], None] | None = None) -> str:
    """Return the SHA-256 of a file in hex; worked out once per (path, size, times), then remembered."""
    key = _key(path)
    if remember and (known := _hashes().get(key)):
        return known
    digest = hashlib.sha256()
    try:
        with path.open("rb") as data:
            while block := data.read(_BLOCK):
                digest.update(block)
                if progress:
                    progress(len(block))
    except OSError as error:
        raise ModelError(
            f"the model file {path} cannot be read ({error.strerror}).", "Check its permissions."
        ) from None
    if remember:
        _remember(path, digest.hexdigest())
    return digest.hexdigest()


def _key(path: Path) -> str:
    stat = path.stat()
    # The change time is part of the key beside the modification time: a copy tool may set the latter.
    return f"{path.resolve()}|{stat.st_size}|{stat.st_mtime_ns}|{stat.st_ctime_ns}"


def _hash_file() -> Path:
    return cache_folder() / "hashes.json"


def _hashes() -> dict[str, str]:
    try:
        table = json.loads(_hash_file().read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    if not isinstance(table, dict):
        return {}
    return {k: v for k, v in table.items() if isinstance(k, str) and isinstance(v, str)}


def _forget_hashes() -> None:
    with contextlib.suppress(OSError):
        _hash_file().unlink(missing_ok=True)


def _remember(path: Path, sha256: str) -> None:
    """Keep a hash. A cache that cannot be written costs time, nothing else."""
    with contextlib.suppress(OSError):
        place = str(path.resolve()) + "|"
        table = {k: v for k, v in _hashes().items() if not k.startswith(place)}
        table[_key(path)] = sha256
        _hash_file().parent.mkdir(parents=True, exist_ok=True)
        handle, temporary = tempfile.mkstemp(dir=_hash_file().parent)
        with os.fdopen(handle, "w", encoding="utf-8") as out:
            json.dump(table, out, indent=1, sort_keys=True)
        Path(temporary).replace(_hash_file())
