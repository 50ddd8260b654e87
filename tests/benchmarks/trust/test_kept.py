"""The values kept for the model of doubt: they are whole, and the weights in the package follow from them."""

from __future__ import annotations

from pathlib import Path

import pytest

from dictate.mentions.doubts import trust
from dictate.mentions.doubts.looks import LOOKS
from dictate.mentions.doubts.trust_terms import ODDS, terms
from dictate.mentions.narration import Narration
from dictate.vocabulary.load import table
from tests.benchmarks.trust import kept as kept_values
from tests.benchmarks.trust.kept import FILE, Taken, keep, kept
from tests.narrations.labels import HERE

VALUES = [t for batch in kept() for t in batch]


def test_the_kept_values_are_of_open_narrations_and_small_enough_to_carry() -> None:
    assert FILE.stat().st_size < 1_500_000
    opened = {path.stem for path in (HERE / "develop").glob("*.toml")}
    assert {t.narration for t in VALUES} <= opened
    assert all(t.seen or t.certain for t in VALUES)


def test_every_weight_is_of_a_term_that_occurs() -> None:
    doubts = [f"doubt {look.__name__}" for look in LOOKS]
    known = {"base", *doubts, *(f"encoder of: {name}" for name in doubts)}
    known |= {name for t in VALUES for name in terms(t.seen)}
    assert set(table("trust")["weights"]) <= known


def test_most_wrong_values_and_few_right_ones_are_asked_about() -> None:
    """The weights were fitted on these too: what is under test is that they fit the names of the evidence."""
    asked = [(t.certain or trust.share_of_doubt(t.seen) >= trust.ASKED, t.wrong) for t in VALUES]
    wrong = [was for was, is_wrong in asked if is_wrong]
    right = [was for was, is_wrong in asked if not is_wrong]
    assert sum(wrong) > 0.8 * len(wrong)
    assert sum(right) < 0.13 * len(right)


@pytest.mark.parametrize("judge", ["net", "encoder"])
def test_the_less_a_judge_believes_a_value_the_likelier_it_is_wrong(judge: str) -> None:
    both = {f"{who} {what}" for who in ("net", "encoder") for what in ("of", "fit", "quantity", "now")}
    rest = {"quantity pressure": 1.0, "state value": 1.0, "bare": 1.0, "doubts": 0.0}
    shares = []
    for odds in (-5.0, -1.0, 2.0, 6.0):
        seen = {name: odds if name.startswith(judge) else 3.0 for name in sorted(both)}
        shares.append(trust.share_of_doubt({**rest, **seen, "both of": odds}))
    assert shares == sorted(shares, reverse=True)
    assert shares[0] > trust.ASKED > shares[-1]


def test_what_its_frame_tells_outright_is_never_doubted() -> None:
    assert trust.share_of_doubt({"told outright": 1.0, "net of": -5.0, "net fit": -5.0}) == 0.0


def test_odds_beyond_any_measure_count_as_the_last_that_were_learned() -> None:
    assert {"net of", "encoder fit", "both of"} <= ODDS
    far, further = ({"net of": odds, "net fit": odds, "quantity flow": 1.0} for odds in (-6.0, -11.5))
    assert terms(far) == terms(further)


def test_what_is_kept_is_read_again_as_it_was(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(kept_values, "FILE", tmp_path / "some.json.gz")
    first = [Taken("one", {"net of": -1.26, "bare": 1.0}, True, False), Taken("one", {}, False, True)]
    second = [Taken("two", {"bare": 1.0, "net of": 3.0}, False, False)]
    keep([first, second])
    again = kept()
    assert again[0][0] == Taken("one", {"net of": -1.3, "bare": 1.0}, True, False)
    assert again[0][1] == first[1]
    assert again[1] == second


def test_judges_are_summed_up() -> None:
    from dictate.mentions.doubts.judges import judged

    narration = Narration.from_text("Suction is sixty eight psi and the box is at thirty eight degrees.")
    said = judged(narration)
    numbers = [both for start in range(len(narration.tokens)) if (both := said.get(start)) is not None]
    assert len(numbers) == 2
    for both in numbers:
        for judge in both:
            assert judge is not None
            assert sum(judge.quantities.values()) == pytest.approx(1, abs=1e-3)
            assert judge.now == pytest.approx(sum(judge.measured.values()))
            assert 0 <= judge.entropy < 4
    net = numbers[0][0]
    assert max(net.quantities, key=net.quantities.__getitem__) == "pressure"


def test_judges_without_a_number_say_nothing() -> None:
    from dictate.mentions.doubts.judges import judged

    assert judged(Narration.from_text("Cleaned the coil and the drain.")).get(3) is None
