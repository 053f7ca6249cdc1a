"""A box as one sees it from the side: what is in it, each as thick as its part of the weight."""

from collections.abc import Sequence
from itertools import accumulate, pairwise

from evenstand.engine.boxes.filled import FilledBox
from evenstand.engine.quantities.phrases import Phrase, Style, join, say
from evenstand.engine.quantities.units import SHARE

from . import svg

WIDE, LEFT, RIGHT, TOP = 400, 8, 128, 8
TALL, LINE, SPOUT = 104, 22, 20  # of the box, of a line of words, of what is under the box
WORDS = 172
TONES = (svg.INK, svg.BAND, svg.SOFT, svg.RUST)


def hopper(filled: FilledBox, style: Style, *, name: str) -> str:
    """Draw a box with what is in it, the most at the bottom.

    Parameters
    ----------
    filled : FilledBox
        With seed in it.
    name : str
        Told apart from other drawings of a page by it.
    """
    parts = sorted(filled.shares.items(), key=lambda part: part[1])
    tall = max(TALL, LINE * len(parts))
    edges = [TOP + tall * share for share in accumulate((s for _, s in parts), initial=0.0)]
    lines = _apart([(a + b) / 2 for a, b in pairwise(edges)], TOP + tall)
    drawn = []
    for i, (seed, share) in enumerate(parts):
        drawn += _layer(edges[i : i + 2], tone=TONES[(len(parts) - 1 - i) % len(TONES)])
        middle = (edges[i] + edges[i + 1]) / 2
        drawn.append(svg.line((RIGHT, middle), (WORDS - 6, lines[i]), colour=svg.SOFT))
        words = say("{seed} {share}", seed=seed, share=SHARE(share, 2))
        drawn.append(svg.words(style.write(words), WORDS, lines[i] + 5, at="start"))
    return svg.drawing(
        WIDE,
        TOP + tall + SPOUT + 4,
        *drawn,
        *_outline(TOP + tall),
        title=style.write(say("What is in {box}", box=filled.box.name)),
        describe=style.write(_in_words(parts)),
        name=name,
    )


def _layer(edges: Sequence[float], *, tone: str) -> list[str]:
    top, bottom = edges
    return [svg.block(LEFT, top, width=RIGHT - LEFT, height=bottom - top, colour=tone)]


def _apart(middles: Sequence[float], lowest: float) -> list[float]:
    """Move lines of words apart so far that each can be read, and none leaves the box."""
    places: list[float] = []
    for i, middle in enumerate(middles):
        left = len(middles) - 1 - i
        least = places[-1] + LINE if places else TOP + LINE / 2
        places.append(min(max(middle, least), lowest - LINE / 2 - left * LINE))
    return places


def _outline(bottom: float) -> list[str]:
    """Draw the walls, open at the top, and the way to the meter."""
    waist = (LEFT + RIGHT) / 2
    walls = [
        (LEFT, TOP - 4),
        (LEFT, bottom),
        (waist - 9, bottom + SPOUT),
        (waist + 9, bottom + SPOUT),
        (RIGHT, bottom),
        (RIGHT, TOP - 4),
    ]
    return [svg.path(walls)]


def _in_words(parts: Sequence[tuple[str, float]]) -> Phrase:
    return join(
        [
            say("{name}: {share} of the weight.", name=name, share=SHARE(share, 2))
            for name, share in reversed(parts)
        ]
    )
