"""From what was written of a catch to the engine's own things: its setting, its rows, its bags."""

from evenstand.engine.catch.weighing import Catch, net
from evenstand.engine.drill.drill import Drill
from evenstand.engine.drill.travel import Wheel
from evenstand.engine.parsing.parse import Reading
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import CATCH, SHARE
from evenstand.engine.statistics.budget import nominal, standard_uncertainty

from .given import Given, listed
from .row_numbers import RowsCaught, of_all, row_numbers

RUNS = ("turns", "distance", "crank_turns", "area")
WEIGHTS = ("net", "gross", "weights")
GO_WITH = {"tare": "gross", "slip": "taped", "per_turn": "crank_turns"}


def refuse_strays(given: Given) -> None:
    """Refuse an input that means nothing without another that was not written."""
    for key, partner in GO_WITH.items():
        if key in given and partner not in given and not (key == "slip" and "rolled" in given):
            raise given.refuse(
                key, say("use it together with {partner}", partner=given.name(partner))
            )


def setting(given: Given, drill: Drill, *, key: str = "setting") -> float:
    """Read a setting that the scale of the drill has."""
    found = given.number(key)
    with given.pointing(setting=key):
        drill.check(found)
    return found


def rows_shut(drill: Drill) -> tuple[Phrase, ...]:
    """Say how a chart is taken where rows between sown rows are shut off."""
    if not drill.blocked:
        return ()
    return (
        say(
            "the chart is for all rows: {open} of {rows} are open",
            open=drill.open_rows,
            rows=drill.covered_rows,
        ),
    )


def slip_as_written(wheel: Wheel | None) -> tuple[Phrase, ...]:
    """Say that a slip without limits is taken as it stands."""
    if wheel is None or not wheel.taped or standard_uncertainty(wheel.slip):
        return ()
    return (say("slip exactly {slip}", slip=SHARE(nominal(wheel.slip))),)


def only_one(given: Given, keys: tuple[str, ...], need: Phrase) -> str:
    """Return which of several inputs was written; one must be, and only one."""
    found = [key for key in keys if key in given]
    if not found:
        names = ", ".join(given.name(key) for key in keys)
        raise given.refuse(keys[0], say("{need}: one of {names}", need=need, names=names))
    if len(found) > 1:
        first = given.name(found[0])
        raise given.refuse(found[1], say("leave it blank, or clear {first}", first=first))
    return found[0]


def rows_caught(given: Given, *, drill: Drill, every: bool = False) -> RowsCaught | None:
    """Read how many rows were caught, at most those that drop seed, or which.

    ``every`` takes all open rows where nothing was written, as for seed that
    was weighed back.
    """
    if "rows_caught" not in given:
        return RowsCaught(drill.open_rows) if every else None
    return row_numbers(given, drill=drill)


def bags(given: Given, *, rows: RowsCaught | None, drill: Drill) -> Catch:
    """Read the seed of one catch: net, gross and tare, or weights bag by bag."""
    way = only_one(given, WEIGHTS, say("enter what the seed weighed"))
    if way == "weights":
        return weighed(given, "weights", rows=rows, drill=drill)
    if rows is None:
        raise given.refuse("rows_caught", say("enter how many rows dropped into the bag"))
    if way == "net":
        return one_bag(given.exact("net", CATCH), rows)
    tare = given.reading("tare", CATCH).value
    if tare < 0:
        raise given.refuse("tare", say("enter 0 or more"))
    gross = given.exact("gross", CATCH)
    with given.pointing():
        return one_bag(_above_zero(given, net(gross, tare)), rows)


def as_typed(given: Given) -> list[Reading]:
    """Read the weights of one catch with their digits; none where there are none."""
    key = next((key for key in WEIGHTS if key in given), "")
    texts = listed(given.text(key)) if key == "weights" else [given.text(key)] if key else []
    return [given.part(text, key, CATCH) for text in texts]


def one_bag(weight: float, rows: RowsCaught) -> Catch:
    """Put all seed of some rows in one bag."""
    return rows.bags([weight]) or ()


def _above_zero(given: Given, weight: float) -> float:
    if not weight > 0:
        raise given.refuse("gross", say("no heavier than the tare: the bag has no seed in it"))
    return weight


def weighed(given: Given, key: str, *, rows: RowsCaught | None, drill: Drill) -> Catch:
    """Read a list of weights, one for each row or for equal groups of rows."""
    return bags_of(given, key, listed(given.text(key)), rows=rows, drill=drill)


def bags_of(
    given: Given, key: str, texts: list[str], *, rows: RowsCaught | None, drill: Drill
) -> Catch:
    """Make bags of written weights; rows are shared out among them."""
    caught = rows or of_all(len(texts), drill)
    weights = [given.part(text, key, CATCH).value for text in texts]
    if not all(weight >= 0 for weight in weights) or not any(weights):
        raise given.refuse(key, say("enter weights of 0 or more, at least one above 0"))
    found, count = caught.bags(weights), caught.count
    if found is None:
        need = say(
            "enter one weight for each of the {rows} rows caught, or for equal groups of them",
            rows=count,
        )
        raise given.refuse(key, need)
    if count > drill.open_rows:
        need = say(
            "enter at most one weight for each of the {rows} open rows", rows=drill.open_rows
        )
        raise given.refuse(key, need)
    return found
