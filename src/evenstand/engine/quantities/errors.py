"""What the engine raises."""

from .phrases import Phrase, say


class MeasurementError(ValueError):
    """A measured input cannot be used.

    ``field`` names the input as the caller wrote it, so that a form or a
    command line can point at it; ``need`` says what is wanted instead.
    """

    def __init__(self, field: str, given: object, need: Phrase) -> None:
        super().__init__(f"{field} is {given!r}: {need}")
        self.field, self.given, self.need = field, given, need


def require_positive(field: str, value: float, unit: str = "") -> None:
    """Raise MeasurementError unless ``value`` is above zero; NaN is not."""
    if not value > 0:
        need = (
            say("give a value above 0 {unit}", unit=unit) if unit else say("give a value above 0")
        )
        raise MeasurementError(field, value, need)


def require_share(field: str, value: float) -> None:
    """Raise MeasurementError unless ``value`` lies from 0 to below 1."""
    if not 0 <= value < 1:
        raise MeasurementError(field, value, say("give a share from 0 % to below 100 %"))
