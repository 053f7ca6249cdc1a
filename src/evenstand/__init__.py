"""Evenstand: the right number of live seeds of every species of a mix, into every row."""

from importlib import import_module
from typing import Any

__version__ = "0.1.0"
__all__ = ["MeasurementError", "__version__", "open_book"]

_WHERE = {"MeasurementError": "engine.quantities.errors", "open_book": "tasks.library.book"}


def __getattr__(name: str) -> Any:
    """Import what a program asks for only when it does: the engine alone needs no book."""
    if name not in _WHERE:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_WHERE[name]}"), name)
