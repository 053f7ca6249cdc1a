"""All that one tag comes to, and its working done again with a pencil."""

import re
from math import sqrt
from pathlib import Path

import pytest

import evenstand.engine
import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import POUND, POUND_PER_ACRE, SQUARE_FOOT
from evenstand.engine.seed.count import printed
from evenstand.engine.seed.replicates import Dish
from evenstand.engine.seed.result import WantedRate, tag_result
from evenstand.engine.seed.retest import HomeTest
from evenstand.engine.seed.species import load
from evenstand.engine.seed.tag import Month, Tag
from evenstand.engine.statistics.budget import standard_uncertainty

DATA = Path(evenstand.engine.__file__).parent / "data"
FILES = (("species", "species"), ("counts", "seed_counts"), ("cautions", "cautions"))
TABLE = load(**{name: (DATA / f"{file}.tsv").read_text(encoding="utf-8") for name, file in FILES})
HARD = Tag(purity=0.98, germination=0.80, hard=0.10, tested=Month(2026, 9))


def rate(pounds, basis):
    return WantedRate(rate=pounds * POUND_PER_ACRE, basis=basis)


def result(tag=HARD, **more):
    return tag_result(tag, **more)


def test_both_ways_side_by_side():
    """98 × 90 = 88.2% with hard seed, 98 × 80 = 78.4% without."""
    counted, alone = result(count_hard=True), result(count_hard=False)
    assert (counted.pls.value, counted.pls_other_way.value) == pytest.approx((0.882, 0.784))
    assert (alone.pls.value, alone.pls_other_way.value) == pytest.approx((0.784, 0.882))


@pytest.mark.parametrize(
    ("name", "counts", "says"),
    [
        ("Alfalfa", True, labels.HARD_SEED_LIVES_ON(name="Alfalfa")),
        ("Hairy vetch", False, labels.HARD_DORMANT_SEED_DOES(name="Hairy vetch")),
        (None, True, labels.HARD_DORMANT_SEED_COUNTS),
    ],
)
def test_the_species_decides_where_the_user_does_not(name, counts, says):
    found = result(species=TABLE.named(name) if name else None)
    assert found.count_hard is counts
    assert says in str(found.choice)


def test_the_user_decides_over_the_species():
    found = result(species=TABLE.named("Hairy vetch"), count_hard=True)
    assert found.count_hard
    assert labels.HARD_DORMANT_SEED_COUNTS_YOU in str(found.choice)
    assert labels.HARD_SEED_LEFT_AS_CHOSEN in str(result(count_hard=False).choice)


def test_a_total_has_no_other_way():
    found = result(Tag(purity=0.95, germination=0.85, total_viable=True))
    assert found.pls.value == pytest.approx(0.8075)
    assert found.pls_other_way is None
    assert labels.TAG_GIVES_ONLY_TOTAL in str(found.choice)


def test_a_rate_of_live_seed():
    """15 lb/ac ÷ 0.882 = 17.007; 15 × 227,000 ÷ 43,560 = 78.17 seeds/ft²."""
    found = result(rate=rate(15, "pls"), count=printed(227_000 / POUND))
    assert found.pls_rate.value / POUND_PER_ACRE == pytest.approx(15)
    assert found.pls_rate.u == 0
    assert found.bulk_rate.value / POUND_PER_ACRE == pytest.approx(17.007, abs=5e-4)
    assert found.seeds_per_area.value * SQUARE_FOOT == pytest.approx(78.17, abs=0.005)


def test_a_rate_of_bulk():
    """17.007 lb/ac × 0.882 = 15.000."""
    found = result(rate=rate(17.007, "bulk"), count=printed(227_000 / POUND))
    assert found.bulk_rate.u == 0
    assert found.pls_rate.value / POUND_PER_ACRE == pytest.approx(15, abs=5e-4)
    assert found.seeds_per_area.value * SQUARE_FOOT == pytest.approx(78.17, abs=0.005)


@pytest.mark.parametrize("basis", ["pls", "bulk"])
def test_seeds_on_the_ground_are_as_uncertain_as_tag_and_count(basis):
    found = result(rate=rate(15, basis), count=printed(227_000 / POUND))
    parts = (
        standard_uncertainty(HARD.pure) / 0.98,
        standard_uncertainty(HARD.viable) / 0.90,
        0.04 / sqrt(8),
    )
    whole = sqrt(sum(part**2 for part in parts))
    assert found.seeds_per_area.u / found.seeds_per_area.value == pytest.approx(whole)
    assert [share.name for share in found.shares] == ["germination", "seed count", "purity"]


def test_the_budget_is_of_what_there_is():
    assert {share.name for share in result().shares} == {"germination", "purity"}


def test_price_of_live_seed():
    """$2.50 at 96 × 75 = 72%: $3.47 (hydroseeding.org, Live seeds)."""
    found = result(Tag(purity=0.75, germination=0.96), price=2.50 / POUND)
    assert found.price_per_pls.value * POUND == pytest.approx(3.47, abs=0.005)


def test_nothing_asked_nothing_given():
    found = result()
    asked = (found.pls_rate, found.bulk_rate, found.seeds_per_area, found.price_per_pls)
    assert asked == (None,) * 4
    assert result(rate=rate(15, "pls")).seeds_per_area is None


def test_a_share_ends_at_all_of_it():
    found = result(Tag(purity=0.999, germination=0.99))
    assert found.pls.high == 1
    assert found.pls.low < 0.98


def test_doubts_and_cautions_come_with_it():
    found = result(
        Tag(purity=0.98, germination=0.92, tested=Month(2025, 1)),
        species=TABLE.named("Cereal rye"),
        count=printed(1_810 / POUND),
        today=Month(2026, 11),
    )
    assert {doubt.field for doubt in found.warnings} == {"tested", "seeds_per_kg"}
    assert labels.LIST_NOT_COMPLETE in str(found.cautions[-1])


def by_pencil(written):
    """Do one line again from what stands on the paper."""
    numbers = re.sub(r"[^\d.×÷+−]", "", written.replace(",", "").replace("per 1,000", ""))
    return eval(numbers.replace("×", "*").replace("÷", "/").replace("−", "-"))


@pytest.mark.parametrize("system", ["us", "metric"])
def test_every_line_can_be_done_again(system):
    style = Style(system=system)
    found = result(rate=rate(15, "pls"), count=printed(227_000 / POUND), price=4 / POUND)
    more = result(rate=rate(15, "bulk"), count=printed(227_000 / POUND))
    lines = [line for line in (*found.working, *more.working) if line.terms]
    assert len(lines) == 9
    for line in lines:
        unit = style.unit(line.value.kind)
        shown = re.sub(r"/ft²|/m²|²", "", line.sum(style))
        assert by_pencil(shown) == pytest.approx(line.value.value / unit.size, rel=2e-3)


@pytest.mark.parametrize("basis", ["pls", "bulk"])
def test_the_working_ends_in_the_results(basis):
    found = result(rate=rate(15, basis), count=printed(227_000 / POUND))
    *_, turned, seeds = (line.value.value for line in found.working)
    other = found.bulk_rate if basis == "pls" else found.pls_rate
    assert turned == pytest.approx(other.value)
    assert seeds == pytest.approx(found.seeds_per_area.value)


def test_the_working_adds_hard_seed_only_where_it_counts():
    assert [len(result(count_hard=yes).working) for yes in (True, False)] == [2, 1]
    assert len(result(Tag(purity=0.9, germination=0.9)).working) == 1


def test_the_working_of_a_home_test_says_so():
    home = HomeTest(dishes=(Dish(90, 100),))
    found = result(Tag(purity=0.98, germination=0.92, home_test=home))
    assert labels.LIVE_SEED_TAG in str(found.working[0].say)


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: WantedRate(rate=0, basis="pls"), "rate"),
        (lambda: result(price=-1), "price"),
        (lambda: result(today=Month(2026, 8)), "tested"),
        (
            lambda: result(Tag(purity=0.95, germination=0.85, total_viable=True), count_hard=False),
            "count_hard",
        ),
    ],
)
def test_refuses_and_names_the_field(call, field):
    with pytest.raises(MeasurementError) as refusal:
        call()
    assert refusal.value.field == field
