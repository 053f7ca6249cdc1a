"""What the engine raises, and the path to what was refused."""

from typing import Self

from .phrases import Phrase, say


class Of(str):
    """What an input is of, where several have it: a species, a box."""

    __slots__ = ()


class Path(tuple[str | int, ...]):
    """Where an input stands: names from the outside in, and which of several, from 1.

    Those who write a place their own way have a path of their own, which says how.

    Examples
    --------
    >>> print(Path("chart", "points"), Path("volume", Of("grain")), sep=", ")
    chart points, volume of grain
    """

    __slots__ = ()

    def __new__(cls, *parts: str | int) -> Self:
        """Make a path of its parts."""
        return super().__new__(cls, parts)

    def part(self, *parts: str | int) -> Self:
        """Return the path of something inside."""
        return type(self)(*self, *parts)

    def __str__(self) -> str:
        return " ".join(f"of {part}" if isinstance(part, Of) else str(part) for part in self)


class MeasurementError(ValueError):
    """A measured input cannot be used.

    ``path`` leads to the input, so that a form, a file or a command line can
    point at it; ``need`` says what is wanted instead.
    """

    def __init__(self, path: str | Path, given: object, need: Phrase) -> None:
        self.path = Path(path) if isinstance(path, str) else path
        super().__init__(f"{self.path} is {given!r}: {need}")
        self.given, self.need = given, need

    @property
    def field(self) -> str:
        """The path as it is written where the input stands."""
        return str(self.path)

    def at(self, path: str | Path) -> "MeasurementError":
        """Return the refusal under another path."""
        return MeasurementError(path, self.given, self.need)


def require_positive(field: str | Path, value: float, unit: str = "") -> None:
    """Raise MeasurementError unless ``value`` is above zero; NaN is not."""
    if not value > 0:
        need = (
            say("enter a value above 0 {unit}", unit=unit) if unit else say("enter a value above 0")
        )
        raise MeasurementError(field, value, need)


def require_share(field: str | Path, value: float) -> None:
    """Raise MeasurementError unless ``value`` lies from 0 to below 1."""
    if not 0 <= value < 1:
        raise MeasurementError(field, value, say("enter a share from 0% to less than 100%"))
