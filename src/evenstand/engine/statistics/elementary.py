"""Elementary functions that give the same bits on every machine.

The exp, log and lgamma of C libraries differ in the last digit from one machine to the
next, so that a phone and a server would print different odds for the same catches;
these use only the operations that IEEE 754 rounds exactly.
"""

from collections.abc import Sequence
from math import floor, frexp, inf, ldexp

_LOG2_E = 1.4426950408889634
_LN_2_HIGH = 0.6931471803691238  # 32 bits, so that its multiples by an exponent are exact
_LN_2_LOW = 1.9082149292705877e-10
_SQRT_HALF = 0.7071067811865476
_HALF_LN_2_PI = 0.9189385332046728
_LARGEST_EXP, _SMALLEST_EXP = 709.782712893384, -745.1332191019412
_SUBNORMAL = -1021  # exponents from here down are reached in two exactly rounded steps

# Coefficients of the lowest power first.
_COTANGENT = (1 / 6, -1 / 360, 1 / 15120, -1 / 604800, 1 / 23950080, -691 / 653837184000)
_INVERSE_TANGENT = tuple(2 / (2 * n + 1) for n in range(1, 12))
_STIRLING = (1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360, 1 / 156)
_LOG_GAMMA_FROM_2 = (
    0.42278433509846713,
    0.3224670334241132,
    -0.0673523010531981,
    0.020580808427784546,
    -0.007385551028673986,
    0.0028905103307415234,
    -0.001192753911703261,
    0.0005096695247430425,
    -0.00022315475845357939,
    9.945751278180853e-05,
    -4.492623673813314e-05,
    2.050721277567069e-05,
    -9.439488275268397e-06,
    4.374866789907488e-06,
    -2.039215753801366e-06,
    9.55141213040742e-07,
    -4.492469198764566e-07,
    2.1207184805554665e-07,
    -1.0043224823968099e-07,
    4.7698101693639804e-08,
    -2.2711094608943164e-08,
    1.0838659214896955e-08,
    -5.183475041970047e-09,
    2.4836745438024785e-09,
    -1.1921401405860912e-09,
    5.731367241678862e-10,
)


def exp(x: float) -> float:
    """Exponential function, within 1 unit in the last place.

    exp x = 2ⁿ · (1 + r + r·c/(2 − c)), r = x − n ln 2, c = r − (r coth(r/2) − 2)

    Parameters
    ----------
    x : float
        Any number; NaN passes. [-]

    Returns
    -------
    float [-]
        Infinite above 709.78, 0 below −745.13.

    References
    ----------
    W. J. Cody and W. Waite (1980), Software Manual for the Elementary Functions, ch. 6;
    NIST Digital Library of Mathematical Functions, 4.19.6 for the coefficients.

    Examples
    --------
    >>> f"{exp(1.0):.12f}"
    '2.718281828459'
    """
    if not _SMALLEST_EXP <= x <= _LARGEST_EXP:
        return x if x != x else inf if x > 0 else 0.0
    n = floor(x * _LOG2_E + 0.5)
    high, low = x - n * _LN_2_HIGH, n * _LN_2_LOW
    r = high - low
    c = r - _polynomial(_COTANGENT, r * r) * (r * r)
    fraction = 1 - ((low - r * c / (2 - c)) - high)
    if n > _SUBNORMAL:
        return ldexp(fraction, n)
    return ldexp(fraction, n + 64) * ldexp(1.0, -64)


def log(x: float) -> float:
    """Natural logarithm, within 1 unit in the last place.

    log x = k ln 2 + 2 artanh(f / (2 + f)), x = 2ᵏ (1 + f), √½ ≤ 1 + f < √2

    Parameters
    ----------
    x : float
        Above 0; NaN passes. [-]

    Returns
    -------
    float [-]

    Raises
    ------
    ValueError
        For x ≤ 0.

    References
    ----------
    NIST Digital Library of Mathematical Functions, 4.6.4.

    Examples
    --------
    >>> f"{log(10.0):.12f}"
    '2.302585092994'
    """
    if not 0 < x < inf:
        if x <= 0:
            raise ValueError(f"x is {x!r}: the logarithm needs a number above 0")
        return x
    m, k = frexp(x)
    if m < _SQRT_HALF:
        m, k = 2 * m, k - 1
    f = m - 1
    s = f / (2 + f)
    half_square = 0.5 * f * f
    tail = _polynomial(_INVERSE_TANGENT, s * s) * (s * s)
    return k * _LN_2_HIGH - ((half_square - (s * (half_square + tail) + k * _LN_2_LOW)) - f)


def lgamma(x: float) -> float:
    """Logarithm of the gamma function, to 1e-15 of its value, beside its zeros too.

    Taylor's series about 2 below 2.5, brought there by Γ(x + 1) = x Γ(x);
    Stirling's series from 10.

    Parameters
    ----------
    x : float
        Above 0; NaN passes. [-]

    Returns
    -------
    float [-]

    Raises
    ------
    ValueError
        For x ≤ 0.

    References
    ----------
    NIST Digital Library of Mathematical Functions, 5.7.3, 5.5.1 and 5.11.1.

    Examples
    --------
    >>> lgamma(5.0) == log(24.0)
    True
    """
    if not 0 < x < inf:
        if x <= 0:
            raise ValueError(f"x is {x!r}: the logarithm of gamma needs a number above 0")
        return x
    if x >= 10:
        return (x - 0.5) * (log(x) - 1) + (_HALF_LN_2_PI - 0.5 + stirling_error(x))
    if x < 0.5:
        return _log_gamma_from_2(x) - log(x * (1 + x))
    if x < 1.5:
        return _log_gamma_from_2(x - 1) - log(x)
    product = 1.0
    while x > 2.5:
        x -= 1
        product *= x
    return _log_gamma_from_2(x - 2) + log(product)


def stirling_error(x: float) -> float:
    """Part of the logarithm of gamma that Stirling's formula leaves out.

    δ(x) = ln Γ(x + 1) − (x + ½) ln x + x − ½ ln 2π

    Parameters
    ----------
    x : float
        Above 0. [-]

    Returns
    -------
    float [-]

    References
    ----------
    C. Loader (2000), Fast and Accurate Computation of Binomial Probabilities;
    NIST Digital Library of Mathematical Functions, 5.11.1.
    """
    if x < 10:
        return lgamma(x) - (x - 0.5) * log(x) + x - _HALF_LN_2_PI
    return _polynomial(_STIRLING, 1 / (x * x)) / x


def _log_gamma_from_2(u: float) -> float:
    """Logarithm of Γ(2 + u) for −½ ≤ u ≤ ½."""
    return _polynomial(_LOG_GAMMA_FROM_2, u) * u


def _polynomial(coefficients: Sequence[float], x: float) -> float:
    total = 0.0
    for coefficient in reversed(coefficients):
        total = total * x + coefficient
    return total
