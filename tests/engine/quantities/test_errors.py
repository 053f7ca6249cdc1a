"""What is refused, and what the refusal carries."""

from math import inf, nan

import pytest

import labels
from evenstand.engine.quantities.errors import MeasurementError, require_positive, require_share
from evenstand.engine.quantities.phrases import Amount, Style, say
from evenstand.engine.quantities.units import POUND_PER_ACRE, RATE


@pytest.mark.parametrize("value", [0, -1.5, -0.0, nan, -inf])
def test_what_is_not_positive_is_refused(value):
    with pytest.raises(MeasurementError) as refusal:
        require_positive("turns", value, "turns")
    assert refusal.value.field == "turns"
    assert refusal.value.given is value
    assert str(refusal.value) == f"turns is {value!r}: enter a value above 0 turns"


def test_a_number_needs_no_unit():
    with pytest.raises(MeasurementError, match=r"^rows is 0: enter a value above 0$"):
        require_positive("rows", 0)


@pytest.mark.parametrize("value", [1e-300, 1, inf])
def test_what_is_positive_passes(value):
    require_positive("turns", value)


@pytest.mark.parametrize("value", [-1e-9, 1.0, 3.0, nan])
def test_what_is_not_a_share_is_refused(value):
    with pytest.raises(MeasurementError) as refusal:
        require_share("slip", value)
    assert refusal.value.field == "slip"
    assert str(refusal.value.need) == labels.GIVE_SHARE_BELOW


@pytest.mark.parametrize("value", [0, 0.03, 0.999999])
def test_what_is_a_share_passes(value):
    require_share("slip", value)


def test_the_need_speaks_the_units_of_its_reader():
    need = say("give at most {limit}", limit=Amount(60 * POUND_PER_ACRE, RATE))
    refusal = MeasurementError("rate", 5.0, need)
    assert str(refusal) == "rate is 5.0: give at most 60 lb/ac"
    assert Style("metric").write(refusal.need) == "give at most 67.3 kg/ha"


def test_it_is_a_value_error():
    assert issubclass(MeasurementError, ValueError)
