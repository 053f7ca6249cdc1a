"""A goal for a mix as it is typed: into ``[mix_goal]`` of a job file; its rates back into the mix.

The solver itself is not needed here.
"""

from collections.abc import Mapping
from typing import Any

from msgspec.structs import replace

from evenstand.book.kinds.seed import Member, Mix
from evenstand.book.kinds.shape import Typed
from evenstand.engine.parsing.numerals import rewritten
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import COST, DENSITY, RATE, SHARE, Kind, Unit
from evenstand.engine.statistics.budget import nominal

from ..parsing.given import Given, lent
from ..parsing.structs import numbered
from .mix import Mixed

GOALS = ("least cost", "nearest")
# What a limit can be on, with what a bare number is then taken in.
WHAT: Mapping[str, Kind | None] = {
    "seeds": DENSITY,
    "weight": RATE,
    "seed share": SHARE,
    "weight share": SHARE,
    "rate": RATE,
    "species": None,
    "cost": COST,
}
MOST_LIMITS = 12


def limit_numbers(given: Given) -> list[int]:
    """Return the numbers of the limits that have a side."""
    return numbered(given, "limit", ("at_least", "at_most"), most=MOST_LIMITS)


def goal_table(given: Given, style: Style) -> dict[str, Any]:
    """Return a goal with its limits as a job file would write them.

    Parameters
    ----------
    given : Given
        Fields of the form.
    style : Style
        A bare number is in the unit that its reader reads in.
    """
    table: dict[str, Any] = {"goal": given.texts.get("goal", "")}
    if "published" in given:
        table["published"] = given.text("published")
    if "least_seeds" in given:
        table["least_seeds"] = _amount(given, "least_seeds", DENSITY, style=style)
    limits = [_limit(given, f"limit{n}_", style) for n in limit_numbers(given)]
    return table | {"limits": limits}


def _limit(given: Given, line: str, style: Style) -> dict[str, str]:
    what = given.texts.get(f"{line}what", "seeds")
    limit = {"what": what}
    if f"{line}of" in given:
        limit["of"] = given.text(f"{line}of")
    for side in ("at_least", "at_most"):
        if f"{line}{side}" in given:
            limit[side] = _amount(given, f"{line}{side}", WHAT.get(what), style=style)
    return limit


def _amount(given: Given, key: str, kind: Kind | None, *, style: Style) -> str:
    """Write an amount as a file has it: with a decimal point, and with its unit."""
    text = rewritten(given.text(key), decimal=given.decimal, into=".")
    return lent(text, style.unit(kind).symbol) if kind else text


def goal_field(refused: MeasurementError, given: Given) -> str | None:
    """Return the field of the form that holds what was refused; None where none does."""
    match refused.path:
        case ("mix_goal", "limits", int(number), *inside):
            key = inside[0] if inside else "what"
            return f"limit{limit_numbers(given)[number - 1]}_{key}"
        case ("mix_goal", *inside):
            return str(inside[0]) if inside else "goal"
        case _:
            return None


def with_rates(mix: Mix, found: Mixed, unit: Unit) -> Mix:
    """Return a mix with the rates that were found; seed that is not sown leaves it.

    Parameters
    ----------
    mix : Mix
        As it stands in the book.
    found : Mixed
        Found from its tables.
    unit : Unit
        In which the bulk rates are written, to five digits.
    """
    rates = {}
    for member, sown in zip(found.members, found.mix.sown, strict=True):
        match member.given.path("share"):
            case ("mix", int(number), _):
                rates[number - 1] = nominal(sown.bulk_rate)
    members = [
        _at(member, rates.get(i), unit)
        for i, member in enumerate(mix.members)
        if member.carrier or i in rates
    ]
    return replace(mix, members=tuple(members))


def _at(member: Member, rate: float | None, unit: Unit) -> Member:
    if rate is None:
        return member
    text = f"{rate / unit.size:.5g}"
    typed = Typed(value=float(text) * unit.size, text=f"{text} {unit.symbol}")
    return replace(member, basis="bulk", rate=typed)
