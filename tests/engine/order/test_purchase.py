"""The order: by hand, published bags, odds, what is on hand, refusals."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.boxes.box import BOX_KINDS, Box
from evenstand.engine.boxes.portion import Portion, rice_hulls
from evenstand.engine.boxes.split import split_as, splits
from evenstand.engine.order.bags import BagSize
from evenstand.engine.order.need import OrderJob
from evenstand.engine.order.purchase import order
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import ACRE, BUSHEL, POUND, POUND_PER_ACRE
from evenstand.engine.statistics.budget import nominal

FIFTY = BagSize(weight=50 * POUND, price=30.0)


def split(pounds=None, **boxes):
    pounds = pounds or {"rye": 30.0, "vetch": 10.0, "clover": 5.0}
    portions = [
        Portion(
            name=name,
            rate=rate * POUND_PER_ACRE,
            seeds_per_kg=440_000.0 if name == "clover" else 40_000.0,
        )
        for name, rate in pounds.items()
    ]
    drill = [
        Box(name="grain", volume=20 * BUSHEL, seed=BOX_KINDS["grain"], **boxes),
        Box(name="small", volume=4 * BUSHEL, seed=BOX_KINDS["small seed"], **boxes),
    ]
    return splits(portions, drill).best[0]


def test_alder_bench_by_hand():
    """38.5 ac, 4% overlap: rye 1,201.2 lb in 25 bags, vetch 400.4 in 9, clover 200.2 in 5."""
    bought = order(
        split(),
        OrderJob(area=38.5 * ACRE, overlap=0.04),
        bags={"rye": [FIFTY], "vetch": [FIFTY], "clover": [FIFTY]},
    )
    assert [line.bags.counts[0][1] for line in bought.lines] == [25, 9, 5]
    assert bought.cost == pytest.approx(39 * 30)
    assert bought.of("clover").left / POUND == pytest.approx(49.8)
    assert str(bought.say) == (
        " ".join(
            [
                labels.BUY(
                    lines="rye: 25 bags of 50 lb; vetch: 9 bags of 50 lb; clover: 5 bags of 50 lb"
                ),
                labels.THAT_COSTS(cost="$1,170.00"),
            ]
        )
    )


def test_published_acres_of_a_bag(published):
    """A seed company's alfalfa page, acres of a 50-lb bag printed to 0.1: 50 lb ± 0.05 × rate."""
    for row in published("acres_per_bag.csv"):
        sown = order(split({"alfalfa": row["rate"]}), OrderJob(area=row["acres"] * ACRE))
        need = nominal(sown.of("alfalfa").need.total) / POUND
        assert need == pytest.approx(row["bag"], abs=0.0501 * row["rate"])


@given(st.floats(0, 3000))
def test_what_is_on_hand_need_not_be_bought(pounds):
    """Rye needs 1,155 lb: bought and on hand, together, are that or what is there already."""
    line = order(split(), OrderJob(area=38.5 * ACRE), on_hand={"rye": pounds * POUND}).of("rye")
    assert line.to_buy / POUND == pytest.approx(max(0, 1155 - pounds))
    assert line.left / POUND == pytest.approx(max(0, pounds - 1155), abs=1e-6)


def test_more_on_hand_than_needed_is_fine():
    plenty = {"rye": 2000 * POUND, "vetch": 500 * POUND, "clover": 300 * POUND}
    done = order(split(), OrderJob(area=38.5 * ACRE), on_hand=plenty, bags={"rye": [FIFTY]})
    assert (done.cost, str(done.say)) == (0.0, labels.ALL_SEED_HAND)
    assert str(done.of("rye").say) == labels.ENOUGH_HAND(name="rye")
    assert done.odds > 0.999


def test_without_bags_the_weight_itself_is_bought_and_nothing_is_priced():
    bought = order(split(), OrderJob(area=38.5 * ACRE), bags={"rye": [FIFTY]})
    assert bought.cost is None
    assert str(bought.of("clover").say) == "clover: 192 lb"


def test_asked_odds_are_the_odds_it_suffices_with():
    """u = 3% of 1,155 lb: 1.2816 × 34.65 = 44.4 lb more for 9 in 10."""
    even, sure = (order(split(), OrderJob(area=38.5 * ACRE), sure=p).of("rye") for p in (0.5, 0.9))
    assert even.odds == pytest.approx(0.5)
    assert sure.odds == pytest.approx(0.9)
    assert (sure.to_buy - even.to_buy) / POUND == pytest.approx(44.4, abs=0.05)


def test_whole_bags_give_odds_by_themselves_and_the_tightest_is_named():
    bags = {name: [FIFTY] for name in ("rye", "vetch", "clover")}
    bought = order(split(), OrderJob(area=38.5 * ACRE), bags=bags)
    # rye: 1,200 of 1,155 lb, 45 ÷ 34.65 = 1.299 sd: Φ = 0.9030
    assert bought.of("rye").odds == pytest.approx(0.9030, abs=5e-5)
    # vetch: 400 of 385 lb is 1.299 sd too; clover: 200 of 192.5 alike
    assert bought.odds == pytest.approx(0.9030, abs=5e-5)
    assert bought.odds_at_least == pytest.approx(1 - 3 * 0.0970, abs=2e-4)
    assert re.match(labels.ORDER_ASK_TAG.like(), str(bought.next))
    # With 3.5 % overlap 1,195.4 lb, u 35.9 lb: 9 in 10 at 1,195.4 + 1.2816 × 35.9 = 1,241.4.
    short = order(split(), OrderJob(area=38.5 * ACRE, overlap=0.035), bags=bags)
    assert str(short.next) == (
        labels.SUFFICES_HAVE_HAND(odds=labels.EVEN, name="rye", enough="1,241 lb", more="41 lb")
    )


def test_one_carrier_of_two_boxes_is_one_line():
    hulls = rice_hulls(10 * POUND_PER_ACRE)
    line = order(split(carrier=hulls), OrderJob(area=10 * ACRE), on_hand={"rice hulls": 20 * POUND})
    assert [each.name for each in line.lines] == ["rye", "vetch", "rice hulls", "clover"]
    assert line.of("rice hulls").to_buy / POUND == pytest.approx(180)


def test_a_heel_nobody_knows_is_said():
    said = [str(each) for each in order(split(dead=0.1), OrderJob(area=ACRE)).assumed]
    assert said[0] == labels.EACH_BOX_LAYS(spread="3%")
    assert labels.NOTHING_COUNTED_WHAT(box="grain") in said[1]


def test_a_large_bag_for_a_small_need_is_warned_of():
    tote = BagSize(weight=2000 * POUND, price=800.0)
    bought = order(split(), OrderJob(area=2 * ACRE), bags={"clover": [tote]})
    assert re.match(
        labels.LEFT_OVER_WHAT.like(name="clover", left="1,990 lb"), str(bought.warnings[0])
    )


def test_working_ends_with_what_is_left_over():
    line = order(split(), OrderJob(area=38.5 * ACRE), bags={"rye": [FIFTY]}).working[-3]
    style = Style()
    assert f"{line.sum(style)} = {style.amount(line.value)}" == (
        "0 lb + 1,200 lb − 1,155 lb = 45 lb"
    )


@pytest.mark.parametrize(
    ("asked", "field"),
    [
        ({"bags": {"oats": [FIFTY]}}, "bags"),
        ({"bags": {"rye": []}}, "bags of rye"),
        ({"on_hand": {"oats": 1.0}}, "on_hand"),
        ({"on_hand": {"rye": -1.0}}, "on_hand of rye"),
        ({"sure": 1.0}, "odds"),
    ],
)
def test_refuses_and_names_the_field(asked, field):
    with pytest.raises(MeasurementError) as refusal:
        order(split(), OrderJob(area=ACRE), **asked)
    assert refusal.value.field == field


@pytest.mark.parametrize(("given", "field"), [("catches", "catches"), ("heels", "heel")])
def test_seed_of_a_box_that_is_not_there_is_refused(given, field):
    job = OrderJob(area=ACRE, **{given: {"attic": 1.0}})
    with pytest.raises(MeasurementError, match="grain, small") as refusal:
        order(split(), job)
    assert refusal.value.field == field


def test_a_box_may_stay_empty():
    seeds = [Portion(name="rye", rate=0.003, seeds_per_kg=40_000.0)]
    boxes = [
        Box(name="grain", volume=1.0, seed=BOX_KINDS["grain"]),
        Box(name="small", volume=1.0, seed=BOX_KINDS["small seed"]),
    ]
    lines = order(split_as(seeds, boxes, {"rye": "grain"}), OrderJob(area=ACRE)).lines
    assert [line.name for line in lines] == ["rye"]
