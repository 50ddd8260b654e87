"""Steps: every case's sentence gives exactly its steps; the vocabulary keeps what it promises."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dictate.mentions import find
from dictate.mentions.narration import Narration
from dictate.mentions.patterns import Matcher, compile_pattern, words_of
from dictate.mentions.steps import find_steps
from dictate.pipeline import read_text
from dictate.record.transcript import Segment, Word
from dictate.record.visit import StepCode
from dictate.vocabulary.load import table

CASES = Path(__file__).parent / "cases"


def cases() -> list[tuple[str, list[str]]]:
    out = []
    for name in ("steps", "steps_more", "steps_ways", "steps_told"):
        for group in tomllib.loads((CASES / f"{name}.toml").read_text(encoding="utf-8")).values():
            out += [(text, want) for text, want in group["cases"]]
    return out


def trap_cases() -> list[tuple[str, list[str]]]:
    out = []
    for name in ("steps_traps", "steps_scoped", "steps_cousins", "steps_lists_undone"):
        groups = tomllib.loads((CASES / f"{name}.toml").read_text(encoding="utf-8")).values()
        out += [(text, want) for group in groups for text, want in group["cases"]]
    return out


def found(text: str) -> dict[str, list[str | None]]:
    out: dict[str, list[str | None]] = {}
    for s in find_steps(Narration.from_text(text)):
        key = s.step if s.status == "done" else f"{s.step}:{s.status}"
        out.setdefault(key, []).append(s.component)
    return out


@pytest.mark.parametrize(("text", "want"), cases(), ids=lambda v: v if isinstance(v, str) else "")
def test_sentence(text: str, want: list[str]) -> None:
    got = found(text)
    named = set()
    for item in want:
        optional = item.endswith("?")
        code, _, component = item.rstrip("?").partition("@")
        named.add(code)
        if optional:
            continue
        assert code in got
        if component:
            assert component in got[code]
    assert set(got) <= named


@pytest.mark.parametrize(("text", "want"), trap_cases(), ids=lambda v: v if isinstance(v, str) else "")
def test_only_what_was_done_is_done(text: str, want: list[str]) -> None:
    steps = read_text(text).steps
    got = {s.step if s.status == "done" else f"{s.step}:{s.status}" for s in steps}
    assert {w for w in want if not w.endswith("?")} <= got
    assert {g for g in got if ":" not in g} <= {w.rstrip("?") for w in want}


def test_every_step_has_at_least_ten_ways_to_say_it() -> None:
    data = table("steps")
    actions = table("parts")["actions"]
    from_parts = {
        "part_replaced": ("replaced", "installed"), "cleaned": ("cleaned",), "adjusted": ("adjusted",),
    }  # fmt: skip
    for code in get_args(StepCode):
        ways = list(data[code]["said"]) + [w for a in from_parts.get(code, ()) for w in actions[a]]
        assert len(set(ways)) >= 10, code


def test_every_line_of_the_vocabulary_compiles_and_matches_its_own_plain_words() -> None:
    data = dict(table("steps"))
    lists = data.pop("lists")
    for code, entry in data.items():
        for line in [*entry["said"], *entry.get("not_said", []), *entry.get("near", [])]:
            pattern = compile_pattern(code, line, lists)
            if all(c.isalpha() or c == " " for c in line):
                words = words_of(Narration.from_text(line))
                assert list(Matcher([pattern]).hits(words)), line


def test_a_step_said_again_is_listed_once() -> None:
    text = "Pulled a vacuum. After I pulled the vacuum I charged it. So, vacuum pulled, charged."
    assert [s.step for s in find_steps(Narration.from_text(text))] == ["evacuated", "charged"]


def test_power_off_and_on_twice_is_four_steps() -> None:
    text = "Killed the power. Turned it back on. Shut the breaker off again. Power back on."
    steps = [s.step for s in find_steps(Narration.from_text(text))]
    assert steps == ["power_isolated", "power_restored", "power_isolated", "power_restored"]


def test_a_plan_carried_out_later_is_no_plan_any_more() -> None:
    text = "I need to recover it first. Recovered two pounds."
    assert [(s.step, s.status) for s in find_steps(Narration.from_text(text))] == [
        ("refrigerant_recovered", "done")
    ]


def test_order_is_the_order_of_speech() -> None:
    text = "Recovered the charge, brazed in a new drier with nitrogen flowing, pulled a vacuum, weighed in two pounds."
    places = [(s.at.segment, s.at.first_word) for s in find_steps(Narration.from_text(text))]
    assert places == sorted(places)


WORDS = st.sampled_from(
    [
        "pulled",
        "vacuum",
        "the",
        "disconnect",
        "no",
        "if",
        "they",
        "brazed",
        "nitrogen",
        "charged",
        "two",
        "pounds",
        ",",
        ".",
        "will",
        "not",
        "and",
        "compressor",
        "new",
        "drier",
        "replaced",
        "it",
        "i",
        "you",
        "cleaned",
        "condenser",
        "told",
        "manager",
        "?",
        "was",
        "need",
        "to",
        "before",
        "after",
        "held",
        "microns",
        "cap",
        "caps",
        "power",
        "off",
        "on",
    ]
)


@settings(max_examples=200, deadline=None)
@given(st.lists(WORDS, max_size=30))
def test_never_crashes_and_points_at_what_was_said(words: list[str]) -> None:
    text = " ".join(words)
    for step in find_steps(Narration.from_text(text)):
        assert step.heard
        assert step.heard.split()[0].lower() in text.lower()


def heard_segments(text: str) -> list[Segment]:
    words = [
        Word(text=w, start_s=n * 0.3, end_s=n * 0.3 + 0.2, probability=0.95)
        for n, w in enumerate(text.split())
    ]
    return [Segment(clip="c1", start_s=0, end_s=9, text=text, words=words)]


def test_a_lost_ending_in_heard_speech_is_taken_and_flagged() -> None:
    found = find(
        heard_segments("Recovered four pounds. Brazed the joint. Charge two pounds six ounces of R-404A.")
    )
    (charged,) = [m for m in found.movements if m.direction == "charged"]
    assert charged.value == 2.375
    assert any("ending" in reason for reason in charged.review)
    (step,) = [s for s in found.steps if s.step == "charged"]
    assert step.review


@pytest.mark.parametrize(
    ("before", "words"),
    [
        ("Recovered four pounds. Brazed the joint.", "Charge on the plate two pounds."),
        # Right behind an amount that came out it is the entry of a form: see the movements' cases.
        ("Brazed the joint. Swapped the drier.", "Charge: two pounds."),
    ],
)
def test_a_charge_that_is_a_noun_is_no_doing(before: str, words: str) -> None:
    found = find(heard_segments(f"{before} {words}"))
    assert "charged" not in [m.direction for m in found.movements]
    assert "charged" not in [s.step for s in found.steps]


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("Swapped the condenser fan motor and the capacitor, no, the capacitor only.", True),
        ("Swapped the condenser fan motor and the capacitor, no trouble with either.", False),
    ],
)
def test_a_list_that_is_cut_down_behind_it_is_asked_about(text: str, asked: bool) -> None:
    steps = read_text(text).steps
    assert steps
    assert any(s.review for s in steps) == asked
