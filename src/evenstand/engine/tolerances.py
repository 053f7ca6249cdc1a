"""Published tolerances between two tests of one lot."""


def purity_u(purity: float) -> float:
    """Return the standard uncertainty of a purity. [-]"""
    return 0.0
