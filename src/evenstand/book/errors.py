"""What the book raises."""

from evenstand.engine.quantities.errors import MeasurementError


class BookError(MeasurementError):
    """What was given cannot be kept, or what was kept cannot be read."""


class NotKeptError(BookError):
    """The disk is full, or the file cannot be used just now; nothing was written.

    ``full`` says that room has to be made first.
    """

    full = False


class FullError(NotKeptError):
    """The disk is full."""

    full = True
