"""A mix as a page of a notebook."""

from collections.abc import Iterator
from string import ascii_uppercase

from rich.text import Text

from evenstand.engine.mix.totals import Sown
from evenstand.engine.quantities.units import COST, DENSITY, RATE, SHARE, Kind
from evenstand.engine.statistics.budget import Quantity, nominal
from evenstand.report.notebook import Lines
from evenstand.report.table import shares, table
from evenstand.tasks.mix.mix import Mixed

from .output import Out
from .pages import tag, taken, worksheet_part
from .seed_pages import shares_part

HEAD = ("", "live", "bulk", "seeds", "seed", "weight", "cost")


def mix_page(found: Mixed, out: Out) -> Iterator[Lines]:
    """Write a mix."""
    yield [*mix_heading(found, out), *tag(out, found.advice), *notes_part(found, out)]
    yield from mix_parts(found, out)


def mix_heading(found: Mixed, out: Out) -> Lines:
    """Write what this is about."""
    species = f"{len({each.name for each in found.mix.sown if each.seed})} species"
    return out.sheet.heading(" · ".join(["Mix", *found.names]), species)


def mix_parts(found: Mixed, out: Out) -> Iterator[Lines]:
    """Write all that stands below what is to be sown."""
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
        number(mix.rates.pls, RATE, out),
        number(mix.bulk_rate, RATE, out),
        number(mix.seeds, DENSITY, out),
        *("", ""),
        number(mix.cost, COST, out),
    ]
    return table(out.sheet, [HEAD, ["", *units]], rows, foot=foot)


def marks(found: Mixed) -> str:
    """Return a letter for each member."""
    return "".join(ascii_uppercase[i % len(ascii_uppercase)] for i in range(len(found.mix.sown)))


def _row(each: Sown, mark: str, out: Out) -> list[str]:
    lot = f" ({each.lot})" if each.lot else ""
    return [
        f"{mark} {each.name}{lot}",
        number(each.pls_rate, RATE, out),
        number(each.bulk_rate, RATE, out),
        number(each.seeds, DENSITY, out),
        number(each.seed_share, SHARE, out, digits=2),
        number(each.weight_share, SHARE, out, digits=2),
        number(each.cost, COST, out),
    ]


def number(value: Quantity | None, kind: Kind, out: Out, *, digits: int = 3) -> str:
    """Write a number in its reader's unit, a question mark where it is not known."""
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
