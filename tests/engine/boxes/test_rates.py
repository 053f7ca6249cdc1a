"""Species rates from box rates: by hand, what is common to a box, refusals."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

import labels
from evenstand.engine.boxes.box import BOX_KINDS, Box
from evenstand.engine.boxes.portion import Portion, rice_hulls
from evenstand.engine.boxes.rates import rates_achieved
from evenstand.engine.boxes.split import split_as
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import BUSHEL, POUND_PER_ACRE

POUNDS = {"rye": 30.0, "vetch": 10.0, "clover": 5.0}
PER_KG = {"rye": 40_000.0, "vetch": 35_000.0, "clover": 440_000.0}


def split(live=0.9, **grain):
    portions = [
        Portion(
            name=name,
            rate=POUNDS[name] * POUND_PER_ACRE,
            seeds_per_kg=PER_KG[name],
            live_per_kg=live * PER_KG[name],
        )
        for name in POUNDS
    ]
    boxes = [
        Box(name="grain", volume=20 * BUSHEL, seed=BOX_KINDS["grain"], **grain),
        Box(name="small", volume=4 * BUSHEL, seed=BOX_KINDS["small seed"]),
    ]
    return split_as(portions, boxes, {"rye": "grain", "vetch": "grain", "clover": "small"})


def test_boxes_at_their_rates_by_hand():
    """42 lb/ac through a box of 3 : 1 is 31.5 of rye and 10.5 of vetch; clover 5 of 5."""
    found = rates_achieved(split(), {"grain": 42 * POUND_PER_ACRE, "small": 5 * POUND_PER_ACRE})
    pounds = {each.name: each.rate.value / POUND_PER_ACRE for each in found.species}
    assert pounds == pytest.approx({"rye": 31.5, "vetch": 10.5, "clover": 5.0})
    assert found.of("rye").off == pytest.approx(0.05)
    assert found.of("clover").live.value == pytest.approx(5 * POUND_PER_ACRE * 0.9 * 440_000)
    assert str(found.say) == (
        " ".join(
            [
                labels.LAYS_DOWN(
                    box="grain",
                    rate="42 lb/ac",
                    off="5%",
                    way=labels.TOO_MUCH,
                    names="rye, vetch",
                    all_alike=labels.ALL_ALIKE,
                ),
                labels.LAYS_DOWN_WANTED(box="small", rate="5 lb/ac"),
            ]
        )
    )


def test_one_box_3_percent_off_moves_its_species_alike_and_no_other():
    found = rates_achieved(split(), {"grain": 40 * POUND_PER_ACRE, "small": 4.85 * POUND_PER_ACRE})
    offs = {each.name: each.off for each in found.species}
    assert offs == pytest.approx({"rye": 0, "vetch": 0, "clover": -0.03}, abs=1e-12)
    # Live seeds wanted, per lb/ac: 0.9 × (30 × 40,000 + 10 × 35,000 + 5 × 440,000) = 3,375,000;
    # clover's 1,980,000 are 3 % short, so the whole is 59,400 ÷ 3,375,000 = 1.76 % short.
    assert found.live.value / found.wanted_live == pytest.approx(1 - 59_400 / 3_375_000)


def test_what_is_uncertain_of_a_box_is_common_to_its_species():
    """Two species of one box at 2%: their sum is at 2%, not at less."""
    rates = {
        "grain": ufloat(40, 0.8, "grain box") * POUND_PER_ACRE,
        "small": 5 * POUND_PER_ACRE,
    }
    found = rates_achieved(split(), rates)
    both = found.of("rye").live.value + found.of("vetch").live.value
    assert found.live.u == pytest.approx(0.02 * both)
    assert found.of("rye").rate.u == pytest.approx(0.02 * found.of("rye").rate.value)
    assert found.of("clover").rate.u == 0
    assert [share.name for share in found.shares] == ["grain box"]


def test_live_seeds_carry_the_lot_as_well():
    found = rates_achieved(
        split(live=ufloat(0.9, 0.09, "germination")),
        {"grain": ufloat(40, 4, "grain box") * POUND_PER_ACRE, "small": 5 * POUND_PER_ACRE},
    )
    rye = found.of("rye")
    assert rye.live.u / rye.live.value == pytest.approx(0.02**0.5 * 1.0)  # √(0.1² + 0.1²)
    assert {share.name for share in rye.shares} == {"grain box", "germination"}


def test_a_carrier_takes_its_part_of_the_box_rate():
    carried = split(carrier=rice_hulls(10 * POUND_PER_ACRE))
    found = rates_achieved(carried, {"grain": 50 * POUND_PER_ACRE, "small": 5 * POUND_PER_ACRE})
    assert found.of("rye").off == pytest.approx(0)


@given(st.floats(0.5, 2), st.floats(0.5, 2))
def test_species_of_a_box_add_up_to_its_rate(grain, small):
    rates = {"grain": grain * 40 * POUND_PER_ACRE, "small": small * 5 * POUND_PER_ACRE}
    found = rates_achieved(split(), rates)
    for name, rate in rates.items():
        parts = [each.rate.value for each in found.species if each.box == name]
        assert sum(parts) == pytest.approx(rate)


def test_working_divides_the_box_by_weight():
    found = rates_achieved(split(), {"grain": 42 * POUND_PER_ACRE, "small": 5 * POUND_PER_ACRE})
    (line,) = found.of("vetch").working
    written = f"{line.sum(Style())} = {Style().amount(line.value)}"
    assert written == "42 lb/ac × 10 lb/ac ÷ 40 lb/ac = 10.5 lb/ac"


@pytest.mark.parametrize(
    ("rates", "field"),
    [
        ({"grain": 0.004}, "rate of small"),
        ({"grain": 0.0, "small": 0.001}, "rate of grain"),
        ({"grain": 0.004, "small": 0.001, "attic": 0.001}, "box"),
    ],
)
def test_refuses_a_box_without_rate_and_an_unknown_one(rates, field):
    with pytest.raises(MeasurementError) as refusal:
        rates_achieved(split(), rates)
    assert refusal.value.field == field
