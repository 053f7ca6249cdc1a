"""Kept counts become places: each size, gaps looked for, species."""

from math import pi

import pytest

from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.work import Place, Seen, StandCount
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.statistics.budget import nominal, standard_uncertainty
from evenstand.tasks.stand.count import check_count, places_of

JOB = "01a20f15-2c80-7000-8000-000000000000"


def metres(value, give_or_take=0.0):
    return Typed(value=value, give_or_take=give_or_take)


def only(spacing=0.2, own=None, **place):
    plants = place.pop("plants", (Seen(plants=9),))
    count = StandCount(job=JOB, places=(Place(plants=plants, **place),), spacing=own)
    return places_of([count], spacing=spacing)[0]


@pytest.mark.parametrize(
    ("place", "area"),
    [
        ({"length": metres(1.5)}, 0.3),
        ({"hoop": metres(2.0)}, pi),
        ({"around": metres(2 * pi)}, pi),
        ({"sides": (metres(0.5), metres(0.4))}, 0.2),
        ({"area": metres(0.25)}, 0.25),
    ],
)
def test_each_size(place, area):
    assert nominal(only(**place).area) == pytest.approx(area)


def test_the_counts_own_spacing_comes_first_and_keeps_its_limits():
    area = only(own=metres(0.1, 0.01), length=metres(2.0)).area
    assert nominal(area) == pytest.approx(0.2)
    assert standard_uncertainty(area) == pytest.approx(2 * 0.01 / 3**0.5)


def test_species_and_gaps():
    plants = (Seen(plants=3, species="rye"), Seen(plants=0, species="vetch"))
    found = only(plants=plants, length=metres(1.0), gaps=(metres(0.2),))
    assert found.counts == {"rye": 3, "vetch": 0}
    assert (found.row, found.gaps) == (1.0, (0.2,))
    assert only(length=metres(1.0)).row is None
    assert only(length=metres(1.0), looked=True).row == 1.0


def test_all_counts_of_a_job_in_their_order():
    counts = [
        StandCount(
            job=JOB, places=tuple(Place(plants=(Seen(plants=n),), area=metres(1.0)) for n in ns)
        )
        for ns in ((1, 2), (3,))
    ]
    assert [place.total for place in places_of(counts, spacing=None)] == [1, 2, 3]


@pytest.mark.parametrize(
    ("place", "field"), [({"length": metres(1.0)}, "spacing"), ({}, "places length")]
)
def test_what_is_missing_is_refused_under_its_field(place, field):
    with pytest.raises(MeasurementError) as refused:
        only(spacing=None, **place)
    assert refused.value.field == field


def count(*places):
    return StandCount(job=JOB, places=places)


def test_a_count_that_can_be_judged_passes():
    check_count(count(Place(plants=(Seen(plants=0),), length=metres(1.0))), spacing=0.2)


@pytest.mark.parametrize(
    ("places", "field"),
    [
        ((), "places"),
        ((Place(plants=(Seen(plants=1),)),), "places length"),
        (
            (Place(plants=(Seen(plants=1),), length=metres(1.0), area=metres(1.0)),),
            "places length",
        ),
        ((Place(plants=(Seen(plants=1), Seen(plants=2)), area=metres(1.0)),), "places plants"),
        ((Place(plants=(), area=metres(1.0)),), "plants"),
        ((Place(plants=(Seen(plants=1),), sides=(metres(1.0),)),), "places sides"),
        ((Place(plants=(Seen(plants=1),), length=metres(1.0), gaps=(metres(2.0),)),), "gaps"),
        (
            tuple(
                Place(plants=(Seen(plants=1, species=name),), area=metres(1.0))
                for name in ("rye", "vetch")
            ),
            "plants of rye",
        ),
    ],
)
def test_a_count_that_cannot_be_judged_is_refused(places, field):
    with pytest.raises(MeasurementError) as refused:
        check_count(count(*places), spacing=0.2)
    assert refused.value.field == field
