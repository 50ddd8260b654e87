"""Every format against something outside the project, and hostile words in each of them."""

import csv
import io
import json
import time
import tracemalloc
from decimal import Decimal
from importlib import resources
from pathlib import Path

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dictate.config import load
from dictate.errors import ExportRefusedError, RecordError
from dictate.export import bill, csv_file, price_book, profile, refrigerant_log
from dictate.export.export import FORMATS, Job, content, export
from dictate.record import schema
from dictate.record.base import At
from dictate.record.file import fingerprint
from dictate.record.transcript import Segment, Word
from dictate.record.visit import (
    Check,
    Clip,
    Equipment,
    Labour,
    Movement,
    Part,
    PlateValue,
    Reading,
    Record,
    Step,
    Visit,
)
from dictate.record.visit import (
    Test as VisitTest,
)

HOSTILE = ['=1+1', "+cmd|' /C calc'!A0", "-2+3", "@SUM(A1)", '\t=1', 'a,b;c', 'say "hi"', "two\nlines", "🧊 ice",
           "\u202egnirts", "<script>alert(1)</script>", "]]>", "a\x00b", "שלום"]  # fmt: skip


def record(id: str = "v-1", note: str = "walk-in is warm", **changes) -> Record:
    made = Record(
        visit=Visit(id=id, date="2026-03-04", customer="Harbour Kitchen", site="12 Quay Road", technician="A. Sample"),
        clips=[Clip(id="c1", file="visit.m4a", sha256="0" * 64, duration_s=60)],
        complaint=note,
        transcript=[
            Segment(clip="c1", start_s=1.0, end_s=4.0, text=note, words=[Word(text=w) for w in note.split()])
        ],
        equipment=[
            Equipment(id="e1", name="walk-in freezer", model="WF-20", serial="A100", refrigerant="R-404A",
                      plate=[PlateValue(quantity="mass", value=18, unit="lb")])
        ],
        readings=[
            Reading(id="r1", equipment="e1", quantity="pressure", value=12.5, unit="psi", point="suction",
                    stage="as_found", at=At(clip="c1", start_s=3.2, end_s=4), heard="twelve and a half"),
            Reading(id="r2", equipment="e1", quantity="pressure", value=16, unit="psi", point="suction",
                    stage="as_left", at=At(clip="c1", start_s=30, end_s=31)),
        ],
        refrigerant=[
            Movement(id="m1", equipment="e1", direction="recovered", refrigerant="R-404A", value=2.375, unit="lb"),
            Movement(id="m2", equipment="e1", direction="charged", refrigerant="R-404A", value=3.5, unit="lb",
                     at=At(clip="c1", start_s=9, end_s=11), heard="three pounds eight ounces"),
        ],
        parts=[Part(id="p1", equipment="e1", name="filter drier", action="replaced", part_number="FD-12", quantity=1)],
        steps=[Step(id="s1", equipment="e1", step="charged", status="done")],
        tests=[VisitTest(id="t1", equipment="e1", kind="pressure_test", result="held")],
        labour=Labour(start="09:15", end="13:40", hours=4 + 25 / 60),
    )  # fmt: skip
    return made.model_copy(update=changes)


def book() -> price_book.PriceBook:
    item = price_book.Item
    return price_book.PriceBook(
        [
            item("LAB", "Labour", Decimal("118.00"), "LH", "labour"),
            item("G404", "R-404A", Decimal("2.13"), "ONZ", "refrigerant"),
            item("FD-12", "Filter drier, 3/8", Decimal("41.50"), "EA", "part"),
        ]
    )


def job(fmt: str, out: Path, **more) -> Job:
    return Job(
        fmt, out, load(start=Path("/"), environment={}), book=book(), completeness=lambda r: [], **more
    )


def xsd():
    from lxml import etree

    path = Path(str(resources.files("peppol"))) / "schema" / "maindoc" / "UBL-Invoice-2.1.xsd"
    return etree.XMLSchema(etree.parse(str(path), etree.XMLParser(no_network=True, resolve_entities=False)))


@pytest.fixture(scope="module")
def ubl_schema():
    return xsd()


def parse_xml(data: bytes):
    from lxml import etree

    return etree.fromstring(data, etree.XMLParser(no_network=True, resolve_entities=False))


def test_bill_lines_are_what_was_said() -> None:
    made = bill.lines(record(), load(start=Path("/"), environment={}), book())
    assert [(x.type, x.code, str(x.quantity), x.unit, str(x.amount)) for x in made] == [
        ("labour", "LAB", "4.5", "LH", "531.00"),
        ("part", "FD-12", "1", "EA", "41.50"),
        ("refrigerant", None, "2.375", "LBR", "None"),
        ("refrigerant", "G404", "56", "ONZ", "119.28"),
    ]
    assert [x.billable for x in made] == [True, True, False, True]
    assert made[0].minutes_said == 265
    assert bill.total(made) == Decimal("691.78")


def test_no_price_is_invented() -> None:
    made = bill.lines(record(), load(start=Path("/"), environment={}), None)
    assert all(x.price is None and x.amount is None for x in made)


def test_an_unsure_match_is_flagged_and_has_no_amount() -> None:
    close = price_book.PriceBook([price_book.Item("X", "suction line filter drier", Decimal(9), "EA")])
    part = Part(id="p1", name="suction line drier", action="replaced", quantity=1)
    item = record(parts=[part], refrigerant=[], labour=None)
    line = bill.lines(item, load(start=Path("/"), environment={}), close)[0]
    assert line.code == "X"
    assert line.amount is None
    assert "confirm it" in line.review[-1]


@pytest.mark.parametrize(
    ("minutes", "step", "rule", "hours"),
    [(265, 15, "up", "4.5"), (265, 15, "nearest", "4.5"), (262, 15, "nearest", "4.25"), (262, 15, "none", "4.3667"),
     (1, 30, "up", "0.5"), (60, 6, "up", "1")],
)  # fmt: skip
def test_labour_rounding(minutes: int, step: int, rule: str, hours: str) -> None:
    assert str(bill.billed_hours(Decimal(minutes), step, rule, 0)) == hours


@settings(max_examples=200)
@given(
    st.lists(st.decimals("0.1", "500", places=1), min_size=1, max_size=20),
    st.decimals("0.01", "99.99", places=2),
)
def test_weights_and_money_add_up(ounces: list[Decimal], price: Decimal) -> None:
    moved = [
        Movement(id=f"m{n}", direction="charged", refrigerant="R-404A", value=float(o), unit="oz")
        for n, o in enumerate(ounces)
    ]
    cheap = price_book.PriceBook([price_book.Item("G", "R-404A", price, "ONZ")])
    made = bill.lines(
        record(refrigerant=moved, parts=[], labour=None), load(start=Path("/"), environment={}), cheap
    )
    assert sum(x.quantity for x in made) == sum(ounces)
    cents = sum((o * price).quantize(Decimal("0.01"), "ROUND_HALF_UP") for o in ounces)
    assert bill.total(made) == cents


@given(st.decimals("0.1", "400", places=1))
def test_a_weight_survives_the_way_into_pounds_and_back(ounces: Decimal) -> None:
    pounds = bill.weight_in(ounces, "ONZ", "LBR")
    assert abs(bill.weight_in(pounds, "LBR", "ONZ") - ounces) < Decimal("0.05")


def test_recommendation_20_codes() -> None:
    # UNECE Recommendation 20, Codes for Units of Measure Used in International Trade.
    listed = {"LH": "labour hour", "EA": "each", "E54": "trip", "LBR": "pound", "ONZ": "ounce (avoirdupois)",
              "KGM": "kilogram", "GRM": "gram"}  # fmt: skip
    used = {*bill.UNIT_CODES.values(), bill.HOUR, bill.EACH, bill.TRIP}
    assert used <= set(listed)


def test_ubl_follows_the_oasis_schema(tmp_path: Path, ubl_schema) -> None:
    ubl_schema.assertValid(parse_xml(content(record(), job("ubl", tmp_path))))


def test_ubl_is_an_invoicing_data_sheet_that_adds_up(tmp_path: Path) -> None:
    root = parse_xml(content(record(), job("ubl", tmp_path)))
    ns = {"b": "urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2"}
    assert root.findtext("b:InvoiceTypeCode", namespaces=ns) == "130"
    assert root.findtext("b:ID", namespaces=ns) == "v-1-r1"
    amounts = [Decimal(e.text) for e in root.iterfind(".//b:LineExtensionAmount", ns)]
    assert amounts[0] == sum(amounts[1:]) == Decimal("691.78")
    codes = {e.get("unitCode") for e in root.iterfind(".//b:InvoicedQuantity", ns)}
    assert codes == {"LH", "EA", "LBR", "ONZ"}


@pytest.mark.parametrize("words", HOSTILE)
@pytest.mark.parametrize("fmt", FORMATS)
def test_hostile_words_do_no_harm(tmp_path: Path, ubl_schema, fmt: str, words: str) -> None:
    visit = Visit(id="v-1", date="2026-03-04", customer=words, site=words, technician=words)
    part = Part(id="p1", equipment="e1", name=words, action="replaced", heard=words)
    item = record(note=words, visit=visit, parts=[part], recommendations=[words])
    paths = export(lambda: [item], 1, job(fmt, tmp_path, profile=profile.read("lines"), draft=True))
    data = paths[0].read_bytes()
    if fmt in ("csv", "log"):
        rows = list(csv.reader(io.StringIO(data.decode(), newline="")))
        assert len({len(r) for r in rows}) == 1
        assert not any(cell.startswith(csv_file.FORMULA_STARTS) for row in rows for cell in row)
    elif fmt == "ubl":
        ubl_schema.assertValid(parse_xml(data))
    elif fmt in ("html", "claim"):
        assert b"<script" not in data
    elif fmt == "json":
        assert json.loads(data)["parts"][0]["name"] == words


def test_csv_against_a_second_parser_and_its_metadata(tmp_path: Path) -> None:
    from csvw import CSVW

    path, about = export(
        lambda: [record()], 1, job("csv", tmp_path / "bill.csv", profile=profile.read("lines"))
    )
    assert b"\r\n" in path.read_bytes()
    assert about.name == "bill.csv-metadata.json"
    table = CSVW(str(path), md_url=str(about))
    assert table.is_valid, table.warnings
    rows = list(table.tables[0])
    assert [r["amount"] for r in rows] == [Decimal("531.00"), Decimal("41.50"), None, Decimal("119.28")]


def test_header_and_lines_profile(tmp_path: Path) -> None:
    made = export(lambda: [record()], 1, job("csv", tmp_path, profile=profile.read("header-and-lines")))
    names = [p.name for p in made]
    assert names == ["header.csv", "lines.csv", "header.csv-metadata.json", "lines.csv-metadata.json"]
    header = (tmp_path / "header.csv").read_text(encoding="utf-8-sig")
    assert "04.03.2026" in header
    assert "691,78" in header
    lines = (tmp_path / "lines.csv").read_text(encoding="utf-8-sig")
    # 3.5 lb = 1.5876 kg (0.45359237 kg to the pound, international definition).
    assert ";1,588;KGM;" in lines


def test_ten_thousand_lines_in_one_file(tmp_path: Path) -> None:
    parts = [Part(id=f"p{n}", name=f"screw {n}", action="installed", quantity=1) for n in range(10_000)]
    item = record(parts=parts)
    path, _ = export(lambda: [item], 1, job("csv", tmp_path / "x.csv", profile=profile.read("lines")))
    assert len(list(csv.reader(path.open(newline="")))) == 10_000 + 4


def test_json_is_canonical_valid_and_hashed(tmp_path: Path) -> None:
    data = json.loads(content(record(), job("json", tmp_path)))
    jsonschema.Draft202012Validator(json.loads(schema.published())).validate(data)
    assert data["export"]["sha256"] == fingerprint(record())
    assert data["export"]["draft"] is False


@pytest.mark.parametrize("fmt", FORMATS)
def test_the_same_input_gives_the_same_bytes(tmp_path: Path, fmt: str) -> None:
    def once(folder: str) -> bytes:
        made = export(lambda: [record()], 1, job(fmt, tmp_path / folder, profile=profile.read("lines")))
        return made[0].read_bytes()

    assert once("a") == once("b")


def test_vtt_is_read_by_an_independent_library(tmp_path: Path) -> None:
    import webvtt

    path = export(lambda: [record(note="A --> B & <c>")], 1, job("vtt", tmp_path / "t.vtt"))[0]
    captions = webvtt.read(str(path))
    assert [(c.start, c.end) for c in captions] == [("00:00:01.000", "00:00:04.000")]


def test_pdf_can_be_read_back(tmp_path: Path) -> None:
    from pypdf import PdfReader

    item = record(recommendations=["Replace the door gasket — soon", "Überprüfen 25 µF"])
    path = export(lambda: [item], 1, job("pdf", tmp_path / "page.pdf"))[0]
    text = "\n".join(page.extract_text() for page in PdfReader(path).pages)
    for words in (
        "walk-in is warm",
        "12.5 psi",
        "16 psi",
        "3.5 lb (3 lb 8 oz) R-404A",
        "door gasket",
        "25 µF",
    ):
        assert words in text


def test_log_says_not_stated_and_never_infers(tmp_path: Path) -> None:
    path = export(lambda: [record()], 1, job("log", tmp_path))[0]
    rows = list(csv.DictReader(path.open(newline="")))
    assert [r["direction"] for r in rows] == ["recovered", "charged"]
    assert rows[1]["amount"] == "3.5"
    assert rows[1]["full charge"] == "18 lb"
    assert rows[1]["certificate"] == "not stated"
    assert rows[1]["leak rate"] == "not stated"
    assert rows[1]["tests"] == "pressure test held"
    assert set(refrigerant_log.COLUMNS) == set(rows[0])


def blocked() -> Record:
    check = Check(
        id="k1", rule="charge.amount-not-stated", outcome="missing", message="no amount", blocking=True
    )
    return record(checks=[check])


@pytest.mark.parametrize("fmt", FORMATS)
def test_export_refuses_while_a_blocking_question_is_open(tmp_path: Path, fmt: str) -> None:
    out = tmp_path / "out"
    with pytest.raises(ExportRefusedError, match=r"charge\.amount-not-stated"):
        export(lambda: [record(), blocked()], 2, job(fmt, out, profile=profile.read("lines")))
    assert not out.exists()


@pytest.mark.parametrize("fmt", FORMATS)
def test_a_draft_is_marked_in_every_format(tmp_path: Path, fmt: str) -> None:
    made = export(lambda: [blocked()], 1, job(fmt, tmp_path, profile=profile.read("lines"), draft=True))
    data = made[0].read_bytes()
    if fmt == "pdf":
        from pypdf import PdfReader

        assert "DRAFT" in PdfReader(made[0]).pages[0].extract_text()
    elif fmt == "json":
        assert json.loads(data)["export"]["draft"] is True
    else:
        assert b"DRAFT" in data


def test_an_unconfirmed_value_blocks_too(tmp_path: Path) -> None:
    item = record()
    item.refrigerant[1].review.append("heard 2.6 ohms")
    with pytest.raises(ExportRefusedError, match="m2"):
        export(lambda: [item], 1, job("csv", tmp_path))


def test_a_later_revision_says_what_it_supersedes(tmp_path: Path) -> None:
    visit = Visit(id="v-1", revision=3, date="2026-03-04")
    root = content(record(visit=visit), job("ubl", tmp_path)).decode()
    assert "<cbc:ID>v-1-r3</cbc:ID>" in root
    assert "<cbc:ID>v-1-r2</cbc:ID>" in root


def test_a_thousand_visits_are_written_with_flat_memory(tmp_path: Path) -> None:
    def visits():
        for n in range(1000):
            yield record(f"v-{n}")

    tracemalloc.start()
    began = time.perf_counter()
    export(visits, 1000, job("csv", tmp_path / "all.csv", profile=profile.read("lines")))
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < 20_000_000, f"{peak} bytes after {time.perf_counter() - began:.1f} s"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (
            'name = "x"\nlayuot = "one-file"\n[[column]]\nname="a"\nvalue="b"\n',
            "line 2: unknown key 'layuot'",
        ),
        ('delimiter = ";;"\n[[column]]\nname="a"\nvalue="b"\n', "line 1: delimiter must be one character"),
        (
            '[[column]]\nname="a"\nfrom="line.price"\n[[column]]\nname="a"\nvalue="b"\n',
            "line 4: a second column",
        ),
        ('[[column]]\nname="a"\nfrom="line.prise"\n', "line 1: unknown source field 'line.prise'"),
        ('[[column]]\nname="a"\nfrom="line.heard"\ndecimals=2\n', "line 1: decimals needs a column"),
        ('encoding = "klingon"\n[[column]]\nname="a"\nvalue="b"\n', "line 1: unknown encoding"),
        ("[[column]\n", "line 1"),
        ("", "there is no [[column]]"),
    ],
)
def test_a_wrong_profile_names_its_line(text: str, says: str) -> None:
    assert any(says in e for e in profile.errors(text, "p.toml")), profile.errors(text, "p.toml")
    with pytest.raises(RecordError):
        profile.parse(text, "p.toml")


@pytest.mark.parametrize("name", profile.built_in())
def test_the_neutral_profiles_are_in_order(name: str) -> None:
    assert profile.read(name).columns


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("code,name\nA,b\n", "lacks price"),
        ("code,name,price,colour\nA,b,1,red\n", "unknown colour"),
        ("code,name,price\nA,b,ten\n", "line 2: price 'ten'"),
        ("code,name,price\nA,b,NaN\n", "line 2"),
        ("code,name,price\nA,b,1,2\n", "line 2: more cells"),
        ("code,name,price\n,b,1\n", "line 2: code and name"),
    ],
)
def test_a_wrong_price_book_names_its_line(tmp_path: Path, text: str, says: str) -> None:
    path = tmp_path / "book.csv"
    path.write_text(text)
    with pytest.raises(RecordError) as error:
        price_book.read(path)
    assert says in str(error.value)


def test_names_match_whatever_their_case_and_dashes() -> None:
    found = book().by_code("fd 12")
    assert found is not None
    assert found.item.code == "FD-12"
