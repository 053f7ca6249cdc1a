from evenstand.engine.quantities.errors import MeasurementError as MeasurementError
from evenstand.tasks.library.book import open_book as open_book

__version__: str
__all__ = ["MeasurementError", "__version__", "open_book"]
