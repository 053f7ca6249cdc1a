"""How many samples a wanted range takes, against Student's table and by pushing on by one."""

import pytest

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.seed.count_goal import samples_for


@pytest.mark.parametrize(
    ("within", "needed"),
    [
        # t(97.5 %) from the printed table: 2.365 at 7, 2.306 at 8, 2.262 at 9 degrees of freedom;
        # 2.01 % × t ÷ √n is 4.75 % of one sample, 3.28 % of two, 2.63 % of three.
        (0.05, 1),
        (0.0475, 2),
        (0.033, 2),
        (0.03, 3),
    ],
)
def test_samples_for_a_range(within, needed):
    assert samples_for(within, cv=0.0201, dof=7, samples=1) == needed


@pytest.mark.parametrize("within", [0.01, 0.015, 0.02, 0.04])
def test_the_answer_is_the_smallest_that_does(within):
    """By SciPy's quantiles instead of our own."""
    stats = pytest.importorskip("scipy.stats")

    def half(n):
        return stats.t.ppf(0.975, 7 + n - 1) * 0.025 / n**0.5

    n = samples_for(within, cv=0.025, dof=7, samples=1)
    assert half(n) <= within < half(n - 1)


def test_what_is_counted_already_is_enough():
    assert samples_for(0.05, cv=0.02, dof=15, samples=8) == 8


def test_a_lot_too_uneven_has_no_number():
    assert samples_for(0.001, cv=0.2, dof=7, samples=1) is None


@pytest.mark.parametrize("within", [0, 1, float("nan"), -0.1])
def test_a_range_is_a_share(within):
    with pytest.raises(MeasurementError, match="above 0 % and below 100 %") as refused:
        samples_for(within, cv=0.02, dof=7, samples=1)
    assert refused.value.field == "within"


@pytest.mark.parametrize("field", ["cv", "samples"])
def test_scatter_and_samples_are_above_zero(field):
    given = {"cv": 0.02, "samples": 1} | {field: 0}
    with pytest.raises(MeasurementError) as refused:
        samples_for(0.03, dof=7, **given)
    assert refused.value.field == field
