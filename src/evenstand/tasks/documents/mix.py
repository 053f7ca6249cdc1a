"""A mix as a document."""

from dataclasses import replace
from string import ascii_uppercase

from evenstand.engine.mix.totals import Sown
from evenstand.engine.quantities.units import COST, DENSITY, RATE, SHARE
from evenstand.engine.statistics.budget import nominal
from evenstand.report.document import Document, Section, Table
from evenstand.report.drawn import SideBySide
from evenstand.report.pen import Pen

from ..mix.mix import Mixed
from .parts import document, listed, makings, number, points, table, taken, working

HEADS = ("", "live", "bulk", "seeds", "seed", "weight", "cost")


def mix_shown(found: Mixed, pen: Pen) -> Document:
    """Tell what the members of a mix come to."""
    species = f"{len({each.name for each in found.mix.sown if each.seed})} species"
    notes = (points(pen, found.minded, alert=True), points(pen, found.noted))
    title = " · ".join(["Mix", *found.names])
    return replace(
        document(pen, found.advice, title=title, about=species, notes=notes),
        sections=(
            Section("", (mix_table(found, pen),)),
            _side_by_side(found),
            *makings(
                pen,
                found.mix.why(found.mix.seeds),
                "Where the uncertainty in live seeds comes from",
            ),
            *listed(pen, "Beware", (each.say for each in found.cautions), alert=True),
            *taken(pen, found.assumed),
        ),
        working=working(pen, found.working, "mix"),
    )


def mix_table(found: Mixed, pen: Pen) -> Table:
    """List the members on every basis, with their letters."""
    units = [pen.style.unit(kind).symbol for kind in (RATE, RATE, DENSITY, SHARE, SHARE, COST)]
    units[2] = units[2].removeprefix("seeds")
    mix = found.mix
    foot = [
        "all together",
        number(pen, mix.rates.pls, RATE),
        number(pen, mix.bulk_rate, RATE),
        number(pen, mix.seeds, DENSITY),
        *("", ""),
        number(pen, mix.cost, COST),
    ]
    rows = [_row(each, mark, pen) for mark, each in zip(_marks(found), mix.sown, strict=True)]
    return table(HEADS, ["", *units], rows, foot=foot)


def _marks(found: Mixed) -> str:
    """Return a letter for each member."""
    return "".join(ascii_uppercase[i % len(ascii_uppercase)] for i in range(len(found.mix.sown)))


def _row(each: Sown, mark: str, pen: Pen) -> list[str]:
    lot = f" ({each.lot})" if each.lot else ""
    return [
        f"{mark} {each.name}{lot}",
        number(pen, each.pls_rate, RATE),
        number(pen, each.bulk_rate, RATE),
        number(pen, each.seeds, DENSITY),
        number(pen, each.seed_share, SHARE, digits=2),
        number(pen, each.weight_share, SHARE, digits=2),
        number(pen, each.cost, COST),
    ]


def _side_by_side(found: Mixed) -> Section:
    """Put the parts by weight and by seed under each other."""
    wholes = (
        ("by weight", [nominal(each.weight_share) for each in found.mix.sown]),
        ("by seed", [nominal(each.seed_share) for each in found.mix.sown]),
    )
    return Section("", (SideBySide(wholes, _marks(found)),))
