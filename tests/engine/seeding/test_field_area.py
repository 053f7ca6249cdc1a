"""Ground sown: meters, passes and maps by hand, Wiebe's gaps, refusals."""

from math import sqrt

import pytest
from uncertainties import ufloat

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import ACRE, FOOT, INCH
from evenstand.engine.seeding.field_area import by_map, by_passes, checked_meter, unchecked_meter
from evenstand.engine.statistics.budget import budget, nominal, standard_uncertainty

# Gaps between fifteen passes of an 8-row drill, 12 in wanted: Wiebe (1935), as in agridat. [in]
GAPS = [10.2, 12.4, 11.7, 13.4, 10.6, 14.2, 11.8, 13.8, 12.2, 13.1, 11.2, 14, 11.3, 12.9, 12.4]


def test_a_meter_held_against_a_known_area():
    meter = checked_meter(ufloat(38.4, 0.2) * ACRE, shown=40 * ACRE)
    assert nominal(meter.factor) == pytest.approx(0.96)
    assert meter.u == pytest.approx(0.2 / 38.4)
    assert str(meter.say) == (
        labels.AREA_METER_SHOWS(shown="40 ac", known="38.4 ac", factor="0.96")
    )
    assert meter.known
    assert not unchecked_meter().known


def test_an_unchecked_meter_says_what_it_is_taken_for():
    (text,) = unchecked_meter().assumed
    assert str(text) == labels.AREA_METER_RIGHT(limits="4%")
    assert unchecked_meter().u == pytest.approx(0.04 / sqrt(3))


def test_passes_by_hand():
    """145.2 ft of 15 ft are a twentieth of an acre: Southeast Farm Press, as quoted."""
    found = by_passes(1, length=145.2 * FOOT, width=15 * FOOT)
    assert nominal(found.area) / ACRE == pytest.approx(0.05)
    assert found.range.low < 0.05 * ACRE < found.range.high


def test_gaps_between_passes_scatter_as_those_of_a_published_field():
    """Wiebe: 1.28% of an 8-ft pass, and 0.36% more ground than width × passes."""
    np = pytest.importorskip("numpy")
    one = by_passes(1, length=100.0, width=8 * FOOT)
    scatter = {s.name: s.u for s in budget(one.area, {})}["pass-to-pass guidance"] / nominal(
        one.area
    )
    # Printed: 12.35 in and 1.23 in.
    assert scatter == pytest.approx(np.std(GAPS, ddof=1) / 96, rel=0.005)
    assert scatter == pytest.approx(0.0128, abs=5e-5)
    wider = by_passes(15, length=100.0, width=8 * FOOT, lap=-(np.mean(GAPS) - 12) * INCH)
    assert nominal(wider.area) / (15 * 100 * 8 * FOOT) == pytest.approx(1.0036, abs=5e-5)


def test_more_passes_average_the_gaps_and_not_the_overlap():
    one, many = (by_passes(n, length=400.0, width=4.5).area for n in (1, 100))
    relative = [standard_uncertainty(a) / nominal(a) for a in (one, many)]
    assert relative[1] == pytest.approx(0.01 / sqrt(3), rel=0.02)
    assert relative[0] > relative[1]


def test_a_map_with_overlap_by_hand():
    """38.5 ac, 4% of it twice: 40.04 ac driven, where the meter does not show less."""
    found = by_map(38.5 * ACRE, overlap=0.04)
    assert nominal(found.area) / ACRE == pytest.approx(38.5)
    for shown, driven in ((0, 40.04), (38.5, 38.5), (30, 38.5), (39.27, 39.27), (45, 40.04)):
        assert nominal(found.driven(shown=shown * ACRE)) / ACRE == pytest.approx(driven)
    assert [str(text) for text in found.assumed] == [labels.MAP_RIGHT_ABOUT(limits="0.5%")]
    assert by_map(ufloat(38.5, 0.1) * ACRE).assumed == ()
    assert found.working == ()


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: checked_meter(0.0, shown=1.0), "known"),
        (lambda: checked_meter(1.0, shown=0.0), "shown"),
        (lambda: checked_meter(1.0, shown=3.0), "shown"),
        (lambda: by_passes(0, length=1.0, width=1.0), "passes"),
        (lambda: by_passes(1, length=0.0, width=1.0), "length"),
        (lambda: by_passes(1, length=1.0, width=0.0), "width"),
        (lambda: by_passes(1, length=1.0, width=1.0, lap=1.0), "lap"),
        (lambda: by_map(0.0), "area"),
        (lambda: by_map(1.0, overlap=1.0), "overlap"),
    ],
)
def test_refuses_and_names_the_field(call, field):
    with pytest.raises(MeasurementError) as refusal:
        call()
    assert refusal.value.field == field
