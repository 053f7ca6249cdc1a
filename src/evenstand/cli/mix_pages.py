"""A mix as a page of a notebook."""

from collections.abc import Iterator
from string import ascii_uppercase

from rich.text import Text

from evenstand.engine.budget import Quantity, nominal
from evenstand.engine.sown import Sown
from evenstand.engine.units import COST, DENSITY, RATE, SHARE, Kind
from evenstand.report.notebook import Lines
from evenstand.report.table import shares, table
from evenstand.tasks.mix import Mixed

from .output import Out
from .pages import tag, taken, worksheet_part
from .seed_pages import shares_part

HEAD = ("", "live", "bulk", "seeds", "seed", "weight", "cost")


def mix_page(found: Mixed, out: Out, *, title: str = "Mix") -> Iterator[Lines]:
    """Write a mix."""
    species = f"{len({each.name for each in found.mix.sown if each.seed})} species"
    heading = out.sheet.heading(" · ".join([title, *found.names]), species)
    yield [*heading, *tag(out, found.advice), *notes_part(found, out)]
    yield [*mix_table(found, out), *_side_by_side(found, out)]
    yield shares_part(found.mix.why(found.mix.seeds), out, "What makes the live seeds uncertain")
    yield beware_part(found, out)
    yield taken(out, found.assumed)
    yield worksheet_part(out, found.working, "mix")


def notes_part(found: Mixed, out: Out) -> Lines:
    """Note what is worth knowing, and what asks to be minded."""
    return [
        *out.sheet.points([out.write(each) for each in found.minded], sign="!"),
        *out.sheet.points([out.write(each) for each in found.noted]),
    ]


def mix_table(found: Mixed, out: Out) -> Lines:
    """List the members on every basis, with their letters."""
    units = [out.style.unit(kind).symbol for kind in (RATE, RATE, DENSITY, SHARE, SHARE, COST)]
    units[2] = units[2].removeprefix("seeds")
    rows = [_row(each, mark, out) for mark, each in zip(marks(found), found.mix.sown, strict=True)]
    mix = found.mix
    foot = [
        "all together",
        _number(mix.rates.pls, RATE, out),
        _number(mix.bulk_rate, RATE, out),
        _number(mix.seeds, DENSITY, out),
        *("", ""),
        _number(mix.cost, COST, out),
    ]
    return table(out.sheet, [HEAD, ["", *units]], rows, foot=foot)


def marks(found: Mixed) -> str:
    """Return a letter for each member."""
    return "".join(ascii_uppercase[i % len(ascii_uppercase)] for i in range(len(found.mix.sown)))


def _row(each: Sown, mark: str, out: Out) -> list[str]:
    lot = f" ({each.lot})" if each.lot else ""
    return [
        f"{mark} {each.name}{lot}",
        _number(each.pls_rate, RATE, out),
        _number(each.bulk_rate, RATE, out),
        _number(each.seeds, DENSITY, out),
        _number(each.seed_share, SHARE, out, digits=2),
        _number(each.weight_share, SHARE, out, digits=2),
        _number(each.cost, COST, out),
    ]


def _number(value: Quantity | None, kind: Kind, out: Out, *, digits: int = 3) -> str:
    if value is None:
        return "?"
    return out.style.number(nominal(value) / out.style.unit(kind).size, digits)


def _side_by_side(found: Mixed, out: Out) -> Lines:
    """Draw the parts by weight and by seed under each other."""
    bars = [
        ("by weight", [nominal(each.weight_share) for each in found.mix.sown]),
        ("by seed", [nominal(each.seed_share) for each in found.mix.sown]),
    ]
    return [Text(), *shares(out.sheet, bars, marks=marks(found))]


def beware_part(found: Mixed, out: Out) -> Lines:
    """List what may harm."""
    if not found.cautions:
        return []
    said = [out.write(each.say) for each in found.cautions]
    return [*out.sheet.heading("Beware"), *out.sheet.points(said, sign="!")]
