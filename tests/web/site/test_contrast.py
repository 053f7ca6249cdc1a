"""Edges and words that are seen in the sun: WCAG 2.2, success criteria 1.4.3 and 1.4.11."""

import re
from pathlib import Path

import pytest

import evenstand.web

CSS = (Path(evenstand.web.__file__).parent / "static/notebook.css").read_text(encoding="utf-8")
WORDS, EDGES = 4.5, 3.0


def colors(selector):
    """The colors that a rule names, over those of the light page."""
    light = re.search(r"^:root \{(.*?)^\}", CSS, re.DOTALL | re.MULTILINE)[1]
    own = re.search(re.escape(selector) + r"\s*\{(.*?)\}", CSS, re.DOTALL)[1]
    pairs = re.findall(r"--([\w-]+): (#[0-9a-f]{3,6});", light + own)
    return {name: full(color) for name, color in pairs}


def full(color):
    return color if len(color) == 7 else "#" + "".join(2 * each for each in color[1:])


def luminance(color):
    """Relative luminance of sRGB, as WCAG 2.2 defines it."""
    shares = [int(color[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in shares]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one, other):
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_black_on_white_is_21():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)  # as often printed


@pytest.mark.parametrize("selector", [":root", ":root[data-outdoor]"])
@pytest.mark.parametrize("ground", ["paper", "sheet"])
def test_what_is_read_and_what_is_touched_stands_out(selector, ground):
    found = colors(selector)
    for name, least in {"ink": WORDS, "soft": WORDS, "rust": WORDS}.items():
        assert contrast(found[name], found[ground]) >= least, name
    # The outline of a field is --soft, the edge of the target's band --rust.
    assert contrast(found["rust"], found["band"]) >= EDGES


def test_outdoors_is_black_on_white():
    found = colors(":root[data-outdoor]")
    assert contrast(found["ink"], found["sheet"]) == pytest.approx(21)
