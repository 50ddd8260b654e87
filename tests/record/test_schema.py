"""The published schema is the schema of the types, and a record follows it."""

import json

import jsonschema
import pytest

from dictate.errors import OutputError, RecordError
from dictate.record import file, schema
from dictate.record.visit import Record, Visit


def record() -> Record:
    return Record(visit=Visit(id="v-1"))


def test_published_schema_is_current() -> None:
    assert schema.published() == schema.schema_text(), "run: python -m dictate.record.schema"


def test_schema_is_valid_and_a_record_follows_it() -> None:
    published = json.loads(schema.published())
    jsonschema.Draft202012Validator.check_schema(published)
    jsonschema.Draft202012Validator(published).validate(json.loads(file.to_json(record())))


def test_schema_refuses_an_unknown_unit() -> None:
    published = json.loads(schema.published())
    data = json.loads(file.to_json(record()))
    data["readings"] = [{"quantity": "pressure", "unit": "furlong", "value": 1}]
    assert list(jsonschema.Draft202012Validator(published).iter_errors(data))


def test_round_trip_and_stable_fingerprint(tmp_path) -> None:
    path = tmp_path / "record.json"
    file.write_atomically(path, file.to_json(record()).encode())
    again = file.load(tmp_path)
    assert again == record()
    assert file.fingerprint(again) == file.fingerprint(record())


@pytest.mark.parametrize(
    "text", ["", "{", "[]", '{"visit": 3}', "\ufeff{}", '{"visit":{"id":"x"},"extra":1}']
)
def test_a_broken_record_is_one_clear_error(tmp_path, text: str) -> None:
    (tmp_path / "record.json").write_text(text, encoding="utf-8")
    with pytest.raises(RecordError) as error:
        file.load(tmp_path)
    assert "\n" not in str(error.value)
    assert "dictate note" in str(error.value)


def test_a_full_disk_leaves_nothing_half_written(tmp_path, monkeypatch) -> None:
    import errno
    import os

    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OutputError, match="disk is full"), file.writing(tmp_path):
        file.write_atomically(tmp_path / "record.json", b"x" * 100)
    assert list(tmp_path.iterdir()) == []
