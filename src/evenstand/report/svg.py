"""Drawings as SVG text, the same on a page, on paper and in a PDF.

Colours stand as attributes, so that a drawing is whole by itself; classes let
a page's style lay others over them, as in the dark.
"""

from collections.abc import Sequence
from html import escape

INK, SOFT, RUST, BAND, SHEET = "#22201b", "#575143", "#a4441a", "#e9c3a6", "#fffdf6"
FONT = "Georgia, serif"


def element(name: str, *children: str, **attributes: str | float) -> str:
    """Write an element; ``stroke_width`` becomes ``stroke-width``, children are markup."""
    written = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{escape(_plain(value))}"'
        for key, value in attributes.items()
    )
    return f"<{name}{written}>{''.join(children)}</{name}>" if children else f"<{name}{written}/>"


def drawing(
    width: float, height: float, *children: str, title: str, describe: str, name: str
) -> str:
    """Write a whole drawing with a title and a text for those who cannot see it.

    Parameters
    ----------
    width, height : float
        Of the paper; the page scales it.
    children : str
        Markup.
    title, describe : str
        Read aloud in place of the drawing.
    name : str
        Told apart from other drawings of a page by it.
    """
    return element(
        "svg",
        element("title", escape(title, quote=False), id=f"{name}-title"),
        element("desc", escape(describe, quote=False), id=f"{name}-desc"),
        *children,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {_plain(width)} {_plain(height)}",
        role="img",
        aria_labelledby=f"{name}-title {name}-desc",
    )


def words(text: str, x: float, y: float, *, at: str = "middle", colour: str = INK) -> str:
    """Write words at a place; ``at`` is where they begin, end or have their middle."""
    return element(
        "text",
        escape(text, quote=False),
        x=x,
        y=y,
        text_anchor=at,
        fill=colour,
        font_family=FONT,
        font_size=15,
        class_=_CLASSES[colour],
    )


def line(
    a: tuple[float, float],
    b: tuple[float, float],
    *,
    colour: str = INK,
    width: float = 1,
    dash: str = "",
) -> str:
    """Draw a straight line."""
    style: dict[str, str | float] = {"stroke_dasharray": dash} if dash else {}
    return element(
        "line",
        x1=a[0],
        y1=a[1],
        x2=b[0],
        y2=b[1],
        stroke=colour,
        stroke_width=width,
        class_=f"line {_CLASSES[colour]}",
        **style,
    )


def path(
    points: Sequence[tuple[float, float]], *, colour: str = INK, width: float = 2.5, dash: str = ""
) -> str:
    """Draw a line through points."""
    style: dict[str, str | float] = {"stroke_dasharray": dash} if dash else {}
    return element(
        "path",
        d=_through(points),
        fill="none",
        stroke=colour,
        stroke_width=width,
        class_=f"line {_CLASSES[colour]}",
        **style,
    )


def area(points: Sequence[tuple[float, float]], *, colour: str = INK, opacity: float = 0.14) -> str:
    """Shade what lies inside points."""
    return element(
        "path",
        d=_through(points) + "Z",
        fill=colour,
        fill_opacity=opacity,
        class_=_CLASSES[colour],
    )


def band(x: float, y: float, *, width: float, height: float) -> str:
    """Shade the band in which a value is wanted, with an edge that is seen in the sun."""
    return element(
        "rect",
        x=x,
        y=y,
        width=width,
        height=height,
        fill=BAND,
        stroke=RUST,
        stroke_width=1.5,
        class_="band",
    )


def block(x: float, y: float, *, width: float, height: float, colour: str = INK) -> str:
    """Fill a part of a bar; a thin edge keeps it apart from its neighbours."""
    return element(
        "rect",
        x=x,
        y=y,
        width=width,
        height=height,
        fill=colour,
        stroke=SHEET,
        stroke_width=1,
        class_=f"block {_CLASSES[colour]}",
    )


def dot(x: float, y: float, *, colour: str = INK, full: bool = False, radius: float = 6) -> str:
    """Draw a ring, or a full dot."""
    return element(
        "circle",
        cx=x,
        cy=y,
        r=radius,
        fill=colour if full else SHEET,
        stroke=colour,
        stroke_width=2.5,
        class_=f"dot {_CLASSES[colour]}{' full' if full else ''}",
    )


_CLASSES = {INK: "ink", SOFT: "soft", RUST: "rust", BAND: "band", SHEET: "sheet"}


def _through(points: Sequence[tuple[float, float]]) -> str:
    return "M" + "L".join(f"{_plain(x)} {_plain(y)}" for x, y in points)


def _plain(value: str | float) -> str:
    return value if isinstance(value, str) else f"{value:.2f}".rstrip("0").rstrip(".")
