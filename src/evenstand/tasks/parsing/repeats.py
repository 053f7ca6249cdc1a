"""Inputs that may be written many times, each as an input of its own."""

from collections.abc import Iterable

from .given import Given, Written


def repeated(texts: Iterable[str], key: str, *, path: Written, also: Given) -> list[Given]:
    """Return each text of such an input as input ``key``; a gross weight keeps its tare.

    Parameters
    ----------
    path : Written
        Where their writer finds them: ``--again``.
    also : Given
        What was written beside them.
    """
    others = {"tare": also.texts["tare"]} if "tare" in also and key == "gross" else {}
    return [Given({key: text} | others, lambda _: path) for text in texts]
