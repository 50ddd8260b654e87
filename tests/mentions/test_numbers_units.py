"""Units as said, against the unit registry (pint), and the ambiguous ones."""

from __future__ import annotations

import pytest

from dictate.mentions.narration import Narration
from dictate.mentions.plausible import _EXACT, in_unit
from dictate.mentions.quantities import find_quantities, mass_of
from dictate.mentions.refrigerants.named import find_refrigerants
from dictate.mentions.unit_words import unit_words
from dictate.units import UCUM, convert
from dictate.vocabulary.load import table

PINT = {
    "millivolt": "millivolt", "kilovolt": "kilovolt", "milliamp": "milliampere", "microamp": "microampere",
    "kilohm": "kiloohm", "megohm": "megaohm", "meg": "megaohm", "milliohm": "milliohm", "kilowatt": "kilowatt",
    "megapascal": "megapascal", "torr": "torr", "inch_water": "inch_H2O_60F", "centimetre": "centimeter", "metre": "meter",
}  # fmt: skip
RECORD = {"V": "volt", "A": "ampere", "ohm": "ohm", "W": "watt", "kPa": "kilopascal", "micron": "millitorr", "Pa": "pascal",
          "mm": "millimeter"}  # fmt: skip


@pytest.mark.parametrize(("word", "name"), PINT.items())
def test_factors_agree_with_pint(word: str, name: str) -> None:
    """A scaled unit comes out in the record's unit by the factor that pint has."""
    from dictate.units import registry

    unit, factor = unit_words()[word].means[0]
    wanted = registry().Quantity(1, name).to(RECORD[unit]).magnitude
    assert factor == pytest.approx(wanted, rel=2e-3)


def test_everyday_factors_agree_with_pint() -> None:
    """The factors that save loading the registry are the registry's."""
    for (unit, to), factor in _EXACT.items():
        assert factor == pytest.approx(convert(1, unit, to), rel=1e-3), (unit, to)
    assert in_unit(100, "degC", "degF") == pytest.approx(convert(100, "degC", "degF"))


def test_every_unit_of_the_record_has_a_ucum_code() -> None:
    """No said unit leads to one that the record does not know."""
    for entry in unit_words().values():
        for unit, _ in entry.means:
            assert unit in UCUM


@pytest.mark.parametrize(
    ("said", "value", "word"),
    [
        ("three pounds eight ounces", 3.5, "pound"),
        ("a pound and a half", 1.5, "pound"),
        ("half a pound", 0.5, "pound"),
        ("three quarters of a pound", 0.75, "pound"),
        ("a pound six ounces", 1.375, "pound"),
        ("two pounds and a half", 2.5, "pound"),
        ("£2 6 ounces", 2.375, "sterling"),
        ("2 pounds for ounces", 2.25, "pound"),
        ("two pounds six.", 2.375, "pound"),
        ("one kilo two hundred grams", 1.2, "kilogram"),
        ("two minutes thirty seconds", 2.5, "minute"),
        ("two minutes ten", 2 + 10 / 60, "minute"),
        ("a minute fifty", 1 + 50 / 60, "minute"),
        ("an hour and a half", 1.5, "hour"),
        ("ten degrees below zero", -10, "degree"),
        ("38°F", 38, "fahrenheit"),
        ("10k ohms", 10, "kilohm"),
        ("12A", 12, "amp"),
        ("24-volt", 24, "volt"),
        ("twenty inches of vacuum", 20, "inch_mercury"),
    ],
)
def test_a_number_with_its_unit(said: str, value: float, word: str) -> None:
    """One quantity, in the larger unit when two were said together."""
    found = find_quantities(Narration.from_text(said))
    assert [(q.value, q.word) for q in found] == [(pytest.approx(value), word)]


@pytest.mark.parametrize(
    "said",
    ["2 pounds for ounces", "charged ate ounces", "two pounds six.", "head is to 65 psi", "6 8 psi is £2"],
)
def test_a_doubtful_form_says_why(said: str) -> None:
    """A misheard or shortened form carries a reason."""
    assert any(q.reasons or q.candidates for q in find_quantities(Narration.from_text(said)))


@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ("12 gauge", "size"),
        ("$45", "price"),
        ("3 days", "calendar"),
        ("5 tons", "size"),
        ("40 VA", "size"),
        ("2 gallons", "size"),
    ],
)
def test_what_is_no_reading_has_its_kind(said: str, kind: str) -> None:
    """Sizes, prices and dates are never readings."""
    assert [q.kind for q in find_quantities(Narration.from_text(said))] == [kind]


@pytest.mark.parametrize(
    ("said", "ends"),
    [("between six and seven amps", ("low", "high")), ("six to seven volts", ("low", "high"))],
)
def test_a_range_has_two_ends_with_one_unit(said: str, ends: tuple[str, str]) -> None:
    """The unit is said once and counts for both ends."""
    found = find_quantities(Narration.from_text(said))
    assert tuple(q.range for q in found) == ends
    assert len({q.word for q in found}) == 1


def test_a_change_is_no_range() -> None:
    """From one value to another is two values."""
    found = find_quantities(Narration.from_text("went from 120 to 118 volts"))
    assert [(q.value, q.change) for q in found] == [(120, "from"), (118, "to")]


def test_masses() -> None:
    """A mass comes out in its own unit; a voltage is none."""
    pounds, volts = find_quantities(Narration.from_text("three pounds eight ounces and 24 volts"))
    assert mass_of(pounds) == (3.5, "lb")
    assert mass_of(volts) is None


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("three pounds of 404A", "R-404A"), ("four oh four a", "R-404A"), ("R4. A4A", "R-404A"), ("4, of 4A", "R-404A"),
        ("our 404A", "R-404A"), ("grams of two ninety", "R-290"), ("a two ninety machine", "R-290"), ("propane", "R-290"),
        ("one thirty four a", "R-134a"), ("R1 34A", "R-134a"), ("four ten a", "R-410A"), ("four fifty four b", "R-454B"),
        ("pounds of twenty two", "R-22"), ("six hundred a unit", "R-600a"), ("1234yf", "R-1234yf"), ("C O two", "R-744"),
    ],
)  # fmt: skip
def test_refrigerant_names(said: str, name: str) -> None:
    """Spoken names and a recogniser's writing of them."""
    assert [r.name for r in find_refrigerants(Narration.from_text(said))] == [name]


@pytest.mark.parametrize(
    "said",
    [
        "two ninety psi on the head",
        "head pressure two ninety",
        "suction twenty two",
        "head is at four ten and suction 118",
    ],
)
def test_a_pressure_is_no_refrigerant(said: str) -> None:
    """The same digits in front of a unit or after a label are a value."""
    assert find_refrigerants(Narration.from_text(said)) == []


def test_a_number_that_several_refrigerants_share_says_so() -> None:
    """R-454A, B or C: the letter was not said."""
    (found,) = find_refrigerants(Narration.from_text("454 refrigerant"))
    assert found.others and found.reasons


def test_vocabulary_is_wide_enough() -> None:
    """At least 60 components and 30 refrigerants; every refrigerant is in ASHRAE 34 form."""
    import re

    names = [e["name"] for e in table("refrigerants")["refrigerant"]]
    assert len(table("components")["component"]) >= 60
    assert len(names) >= 30
    # ASHRAE Standard 34: R- and the number; mixtures carry a capital letter, isomers a small one.
    # ANSI/ASHRAE Standard 34: a blend ends in a capital letter, an isomer in small ones ("R-245fa", "R-1233zd(E)").
    assert all(re.fullmatch(r"R-\d{2,4}(?:[A-H]|[a-z]{1,2}(?:\([EZ]\))?)?", n) for n in names)
    assert len(set(names)) == len(names)
