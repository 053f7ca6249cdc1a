"""A mix as two strips, by weight and by seed, and how each member goes from one to the other."""

from collections.abc import Sequence
from itertools import accumulate

from evenstand.engine.mix.totals import Mix, Sown
from evenstand.engine.quantities.phrases import Phrase, Style, say
from evenstand.engine.quantities.phrases import join as behind
from evenstand.engine.quantities.units import SHARE
from evenstand.engine.statistics.budget import nominal

from . import svg

WIDE, TALL = 400, 176
BAR, WEIGHT_TOP, SEED_TOP = 36, 22, 118
LEAST_FOR_LETTER = 15  # as wide as a letter with air around it
# Ground and letter of each member in turn; letters and order tell them apart without colour.
TONES = ((svg.INK, svg.SHEET), (svg.BAND, svg.INK), (svg.SOFT, svg.SHEET), (svg.RUST, svg.SHEET))


def mix_strip(mix: Mix, letters: str, style: Style) -> str:
    """Draw what each member is of the weight over what it is of the live seeds.

    Parameters
    ----------
    letters : str
        One for each member.
    """
    weights = _edges([nominal(each.weight_share) for each in mix.sown])
    seeds = _edges([nominal(each.seed_share) for each in mix.sown])
    parts = []
    for i, letter in enumerate(letters):
        parts.append(_flow(weights[i : i + 2], seeds[i : i + 2], tone=TONES[i % len(TONES)]))
        for edges, top in ((weights, WEIGHT_TOP), (seeds, SEED_TOP)):
            parts.append(_part(edges[i : i + 2], top, letter=letter, tone=TONES[i % len(TONES)]))
    return svg.drawing(
        WIDE,
        TALL,
        *parts,
        svg.words(style.write(say("by weight")), 0, 15, at="start", colour=svg.SOFT),
        svg.words(style.write(say("by live seeds")), 0, TALL - 4, at="start", colour=svg.SOFT),
        title=style.write(say("Share of the mix by weight and by live seeds")),
        describe=style.write(_in_words(mix.sown, letters)),
        name="parts",
    )


def _edges(shares: Sequence[float]) -> list[float]:
    """Return where each part begins, and where the last one ends."""
    return [share * WIDE for share in accumulate(shares, initial=0.0)]


def _part(edges: Sequence[float], top: float, *, letter: str, tone: tuple[str, str]) -> str:
    left, right = edges
    ground, ink = tone
    drawn = svg.block(left, top, width=right - left, height=BAR, colour=ground)
    if right - left < LEAST_FOR_LETTER:
        return drawn
    return drawn + svg.words(letter, (left + right) / 2, top + BAR / 2 + 5, colour=ink)


def _flow(above: Sequence[float], below: Sequence[float], *, tone: tuple[str, str]) -> str:
    """Shade the way from a member's part of the weight to its part of the seeds."""
    if below[0] == below[1]:
        return ""
    corners = [
        (above[0], WEIGHT_TOP + BAR),
        (above[1], WEIGHT_TOP + BAR),
        (below[1], SEED_TOP),
        (below[0], SEED_TOP),
    ]
    return svg.area(corners, colour=tone[0], opacity=0.3)


def _in_words(sown: Sequence[Sown], letters: str) -> Phrase:
    return behind([_member(each, letter) for each, letter in zip(sown, letters, strict=True)])


def _member(each: Sown, letter: str) -> Phrase:
    return say(
        "{letter}, {name}: {weight} of the weight, {seeds} of the live seeds.",
        letter=letter,
        name=each.name,
        weight=SHARE(nominal(each.weight_share), 2),
        seeds=SHARE(nominal(each.seed_share), 2),
    )
