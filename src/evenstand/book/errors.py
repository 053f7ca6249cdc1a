"""What the book raises."""

from evenstand.engine.quantities.errors import MeasurementError


class BookError(MeasurementError):
    """What was given cannot be kept, or what was kept cannot be read."""
