"""A code to scan, drawn with the blocks of a terminal."""

import io

import segno


def to_scan(text: str) -> list[str]:
    """Return a text as a QR code, light blocks on a dark terminal, two modules to a line.

    A phone reads it the other way round too, as on a light terminal.
    """
    drawn = io.StringIO()
    segno.make(text, error="m", micro=False).terminal(drawn, compact=True)
    return drawn.getvalue().rstrip("\n").split("\n")
