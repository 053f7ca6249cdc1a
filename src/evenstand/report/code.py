"""Codes to scan, drawn as SVG."""

import io


def code_to_scan(text: str) -> str:
    """Draw a text as a QR code (ISO/IEC 18004) that a quarter of dirt leaves readable."""
    import segno  # late: few pages have one

    drawn = io.BytesIO()
    made = segno.make(text, error="q", micro=False)
    made.save(drawn, kind="svg", xmldecl=False, svgns=True, omitsize=True, border=2)
    return drawn.getvalue().decode()
