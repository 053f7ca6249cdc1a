"""What a drill has shown before counts in a new job, where seed and box are the same."""

import pytest

import labels


@pytest.fixture
def two_jobs(visitor):
    """A job whose catches showed a tenth less than the chart, and how to begin another."""

    def begin(seed, **changes):
        (drill,) = visitor.book.things("drill")
        fields = {**visitor.JOB, "drill": drill.id, "wanted1_seed": seed, **changes}
        return visitor.send("/jobs/new", fields)

    visitor.heron()
    first = begin("rye")
    for catch in (visitor.LIGHT, visitor.GOOD, visitor.GOOD):
        visitor.send(f"{first}/calibrate", catch)
    return begin


def test_the_same_seed_starts_where_the_drill_was_right(visitor, two_jobs):
    page = visitor.read(f"{two_jobs('Rye')}/calibrate")
    # 33 gave 53.5 lb/ac where the chart says 59.4.
    assert labels.SET_TO(levers="the lever", to=33) in page.text
    assert "3 catches of Rye with this drill, from earlier jobs, count too" in page.text


@pytest.mark.parametrize(
    "other",
    [
        ("vetch", {}),
        ("", {}),
        ("rye", {"wanted1_box": "small"}),
        ("rye", {"wanted1_test_weight": "56 lb/bu"}),
    ],
)
def test_other_seed_starts_from_the_chart(visitor, two_jobs, other):
    seed, changes = other
    (chart,) = visitor.book.things("chart")
    if "wanted1_test_weight" in changes:  # the chart's is known too, the earlier seed's is not
        fields = {**visitor.CHART, "test_weight": "56 lb/bu"}
        visitor.send(f"/charts/{chart.id}", fields)
    page = visitor.read(f"{two_jobs(seed, **changes)}/calibrate")
    assert labels.SET_TO(levers="the lever", to=30) in page.text
    assert "earlier jobs" not in page.text


def test_a_catch_in_work_is_no_stand_rate(visitor, two_jobs):
    third = two_jobs("oats")
    pulled = {**visitor.LIGHT, "turns": "", "distance": "158.333 ft"}
    visitor.send(f"{third}/calibrate", pulled)
    assert (
        labels.SET_TO(levers="the lever", to=30)
        in visitor.read(f"{two_jobs('oats')}/calibrate").text
    )


def test_a_removed_catch_is_forgotten(visitor, two_jobs):
    for catch in visitor.book.things("catch"):
        visitor.book.remove(catch.id)
    assert (
        labels.SET_TO(levers="the lever", to=30)
        in visitor.read(f"{two_jobs('rye')}/calibrate").text
    )


def test_a_chart_and_earlier_catches_are_those_of_all_rows(visitor, two_jobs):
    """Ten of 20 rows shut: the ground gets half, so half the rate is where all rows are whole."""
    half = two_jobs("rye", wanted1_rate="27", blocked="10")
    page = visitor.read(f"{half}/calibrate")
    assert labels.SET_TO(levers="the lever", to=33) in page.text
    assert labels.CHART_FOR_ALL_ROWS(open=10, rows=20) in page.text
    other = two_jobs("vetch", wanted1_rate="27", blocked="10")
    assert labels.SET_TO(levers="the lever", to=30) in visitor.read(f"{other}/calibrate").text


def test_earlier_catches_of_fewer_rows_count_for_all(visitor, two_jobs):
    half = two_jobs("oats", wanted1_rate="27", blocked="10")
    net = float(visitor.GOOD["net"]) / 2
    for _ in range(3):
        visitor.send(
            f"{half}/calibrate", {**visitor.GOOD, "rows_caught": "10", "net": f"{net:.4f}"}
        )
    assert (
        labels.SET_TO(levers="the lever", to=33)
        in visitor.read(f"{two_jobs('oats')}/calibrate").text
    )
