"""To what a scale reads, where nobody said: off the digits of the weights."""

import pytest

from evenstand.engine.catch.weighing import WeighScale, read_off
from evenstand.engine.parsing.parse import read
from evenstand.engine.quantities.units import CATCH, GRAM, OUNCE, POUND


def scales(*catches, usual=None):
    typed = [[read(text, CATCH, field="net") for text in catch] for catch in catches]
    return read_off(typed, usual or WeighScale())


@pytest.mark.parametrize(
    ("text", "step"),
    [
        ("22.6 g", 0.1 * GRAM),
        ("227 g", GRAM),
        ("1,227 g", GRAM),
        ("22,6 g", 0.1 * GRAM),
        ("0.227 kg", GRAM),
        ("8 oz", OUNCE),
        ("8.0 oz", 0.1 * OUNCE),
        ("8 1/4 oz", 0.25 * OUNCE),
        ("8½ oz", 0.5 * OUNCE),
        ("1 lb 3 oz", OUNCE),
        ("1 lb 3.5 oz", 0.1 * OUNCE),
        ("1.25 lb", 0.01 * POUND),
    ],
)
def test_the_last_digit_tells_the_step(text, step):
    (scale,) = scales([text])
    assert scale.resolution == pytest.approx(step)


def test_the_finest_digit_of_all_catches_in_a_unit_counts():
    first, second, third = scales(["8 oz"], ["8.4 oz"], ["227 g"])
    assert first.resolution == second.resolution == pytest.approx(0.1 * OUNCE)
    assert third.resolution == pytest.approx(GRAM)


def test_bags_in_two_units_are_as_coarse_as_the_coarser():
    (scale,) = scales(["8.1 oz", "227 g"])
    assert scale.resolution == pytest.approx(0.1 * OUNCE)


def test_weights_that_are_all_whole_fives_were_read_off_a_scale_that_steps_by_five():
    assert scales(["225 g"], ["230 g"])[0].resolution == pytest.approx(5 * GRAM)
    assert scales(["225 g"], ["231 g"])[0].resolution == pytest.approx(GRAM)
    assert scales(["225 g"], ["230.5 g"])[0].resolution == pytest.approx(0.1 * GRAM)
    assert scales(["225 g"])[0].resolution == pytest.approx(5 * GRAM)
    assert scales(["225 g"], ["0 g"])[0].resolution == pytest.approx(5 * GRAM)
    assert scales(["10 oz"], ["0 oz"])[0].resolution == pytest.approx(OUNCE)


def test_what_the_scale_reads_to_is_said_with_where_it_is_known_from():
    (typed,) = scales(["8.0 oz"])
    assert str(typed.read_to) == "scale read to 0.1 oz, as you typed it"
    assert str(WeighScale(resolution=GRAM).read_to) == "scale reads to 1 g"


def test_a_catch_without_digits_is_weighed_on_the_usual_scale():
    usual = WeighScale(resolution=2 * GRAM, tolerance=GRAM)
    bare, typed = scales([], ["8 oz"], usual=usual)
    assert bare == usual
    assert typed.tolerance == GRAM
