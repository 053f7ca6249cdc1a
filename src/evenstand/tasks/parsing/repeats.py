"""Inputs that may be written many times, each as an input of its own."""

from collections.abc import Iterable

from .given import Given


def repeated(texts: Iterable[str], key: str, *, name: str, also: Given) -> list[Given]:
    """Return each text of such an input as input ``key``; a gross weight keeps its tare.

    Parameters
    ----------
    name : str
        As their writer calls them: ``--again``.
    also : Given
        What was written beside them.
    """
    others = {"tare": also.texts["tare"]} if "tare" in also and key == "gross" else {}
    return [Given({key: text} | others, lambda _: name) for text in texts]
