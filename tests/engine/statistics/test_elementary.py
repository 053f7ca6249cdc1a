"""Elementary functions against exact values, identities and the C library."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenstand.engine.statistics import elementary
from evenstand.engine.statistics.elementary import exp, lgamma, log, stirling_error

ULP = 2.2e-16
EXPONENTS = [-744.5 + 0.37 * i for i in range(3900)]
NUMBERS = [x * math.ldexp(1.0, e) for e in range(-1060, 1020, 26) for x in (1.0, 1.3, 1.41, 1.7)]
GAMMAS = [0.004 * i for i in range(1, 3000)] + [12.5 * i for i in range(1, 800)]


@pytest.mark.parametrize("x", EXPONENTS[100::13])
def test_exp_agrees_with_the_c_library_to_two_units_in_the_last_place(x):
    assert exp(x) == pytest.approx(math.exp(x), rel=2 * ULP, abs=5e-324)


@pytest.mark.parametrize("x", NUMBERS)
def test_log_agrees_with_the_c_library_to_two_units_in_the_last_place(x):
    assert log(x) == pytest.approx(math.log(x), rel=2 * ULP)


@pytest.mark.parametrize("k", range(1, 500))
def test_log_next_to_1_loses_nothing(k):
    """The series of log(1 + d) up to d⁴ is exact to d⁵/5 for d = k · 2⁻²⁰."""
    d = k * math.ldexp(1.0, -20)
    series = d * (1 - d * (1 / 2 - d * (1 / 3 - d / 4)))
    assert log(1 + d) == pytest.approx(series, rel=1e-13 * k, abs=0)


def test_exact_values():
    assert exp(0.0) == 1.0
    assert log(1.0) == 0.0
    assert (lgamma(1.0), lgamma(2.0)) == (0.0, 0.0)


# The first 17 digits of e, ln 2, ln 10, ½ ln π: OEIS A001113, A002162, A002392, A155968 halved.
def test_printed_constants():
    assert exp(1.0) == pytest.approx(2.7182818284590452, rel=ULP)
    assert log(2.0) == pytest.approx(0.69314718055994531, rel=ULP)
    assert log(10.0) == pytest.approx(2.3025850929940457, rel=ULP)
    assert lgamma(0.5) == pytest.approx(0.57236494292470009, rel=2 * ULP)


@pytest.mark.parametrize("n", range(3, 171))
def test_lgamma_of_whole_numbers_is_the_logarithm_of_a_factorial(n):
    assert lgamma(n) == pytest.approx(math.log(math.factorial(n - 1)), rel=1e-15)


@pytest.mark.parametrize(
    ("x", "printed"),
    [(1.5, -0.12078223763524522), (2.5, 0.28468287047291916)],  # ln(√π / 2), ln(3√π / 4)
)
def test_lgamma_where_its_series_is_longest(x, printed):
    assert lgamma(x) == pytest.approx(printed, rel=3 * ULP)


@pytest.mark.parametrize("x", GAMMAS[::7])
def test_lgamma_agrees_with_the_c_library(x):
    """The C library itself is good to an absolute 1e-15 only, beside the zeros at 1 and 2."""
    assert lgamma(x) == pytest.approx(math.lgamma(x), rel=1e-14, abs=2e-15)


@pytest.mark.parametrize("d", [1e-3, -1e-3, 1e-6, -1e-6, 1e-9])
def test_lgamma_keeps_its_digits_beside_its_zeros(d):
    """Taylor to d³ about 1 and 2, with Euler's γ, ζ(2) and ζ(3) (DLMF 5.7.3)."""
    euler, zeta2, zeta3 = 0.57721566490153286, math.pi * math.pi / 6, 1.2020569031595943
    about_1 = -euler * d + zeta2 / 2 * d * d - zeta3 / 3 * d * d * d
    about_2 = (1 - euler) * d + (zeta2 - 1) / 2 * d * d - (zeta3 - 1) / 3 * d * d * d
    rounding = 2 * ULP / abs(d)
    assert lgamma(1 + d) == pytest.approx(about_1, rel=1e-9 * (abs(d) / 1e-3) + rounding)
    assert lgamma(2 + d) == pytest.approx(about_2, rel=1e-9 * (abs(d) / 1e-3) + rounding)


@pytest.mark.parametrize("x", [0.3, 1.0, 4.0, 9.99, 10.0, 25.0, 1e4])
def test_stirling_error_is_bracketed_by_two_terms_of_its_series(x):
    """1/12x − 1/360x³ < δ < 1/12x (Robbins 1955 for the upper bound)."""
    upper = 1 / (12 * x)
    slack = 1e-14 * max(x, 1) if x < 10 else 1e-16
    assert upper - 1 / (360 * x * x * x) - slack <= stirling_error(x) <= upper + slack


def test_overflow_and_underflow_go_to_their_limits():
    assert exp(709.7) == pytest.approx(math.exp(709.7), rel=2 * ULP)
    assert exp(709.8) == math.inf
    assert exp(math.inf) == math.inf
    assert exp(-745.2) == 0.0
    assert exp(-math.inf) == 0.0
    assert log(math.inf) == math.inf
    assert lgamma(math.inf) == math.inf
    assert lgamma(1e307) == math.inf


@pytest.mark.parametrize("x", [-708.5, -720.25, -740.0, -744.4])
def test_exp_rounds_once_among_the_subnormal_numbers(x):
    assert abs(exp(x) - math.exp(x)) <= 5e-324


def test_not_a_number_passes():
    for function in (exp, log, lgamma):
        assert math.isnan(function(math.nan))


@pytest.mark.parametrize("x", [0.0, -1.0, -math.inf])
@pytest.mark.parametrize("function", [log, lgamma])
def test_outside_the_domain_is_refused(function, x):
    with pytest.raises(ValueError, match=r"x is .* needs a number above 0"):
        function(x)


@given(st.floats(-700, 700))
def test_log_undoes_exp(x):
    assert log(exp(x)) == pytest.approx(x, rel=4 * ULP, abs=ULP)


@given(st.floats(-350, 350), st.floats(-350, 350))
def test_exp_turns_sums_into_products(x, y):
    """The rounding of x + y is exp's relative error, so it is allowed for."""
    assert exp(x + y) == pytest.approx(exp(x) * exp(y), rel=4 * ULP + abs(x + y) * ULP)


@given(st.floats(1e-6, 1e6))
def test_gamma_of_x_plus_1_is_x_times_gamma_of_x(x):
    slack = 1e-15 * (1 + abs(lgamma(x)) + abs(log(x)))
    assert lgamma(x + 1) == pytest.approx(lgamma(x) + log(x), abs=2 * slack)


@given(st.floats(-745, 709), st.floats(0, 10))
def test_exp_never_falls(x, step):
    assert exp(x) <= exp(x + step)


def test_no_function_of_the_c_library_is_used():
    public = {name for name in vars(elementary) if not name.startswith("_")}
    borrowed = {name for name in public if getattr(elementary, name) is getattr(math, name, None)}
    assert borrowed == {"floor", "frexp", "inf", "ldexp"}
