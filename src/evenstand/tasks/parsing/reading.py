"""From what was written to the engine's own things: drill, wheel, run, catch, target."""

from evenstand.engine.catch.target import Target
from evenstand.engine.catch.weighing import Catch, Prior, WeighScale, net
from evenstand.engine.drill.drill import Drill, Gear, Scale
from evenstand.engine.drill.travel import Run, Wheel, driven, rolled, sown, taped, turned
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import (
    CATCH,
    FIELD,
    LENGTH,
    NUMBER,
    RATE,
    ROWS,
    SCALE_STEP,
    SHARE,
    SPACING,
    TEST_WEIGHT,
    TRAVEL,
    TURNS,
)
from evenstand.engine.statistics.budget import Quantity, nominal, standard_uncertainty

from .given import Given, is_bare, listed
from .row_numbers import RowsCaught, of_all, row_numbers

TOLERANCE = 0.05  # taken, and said, where none was given
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


def drill(given: Given, *, scale: Scale | None = None, gears: tuple[Gear, ...] = ()) -> Drill:
    """Read rows, spacing and rows shut off."""
    shut = {
        key: given.count(key, ROWS, least=0) for key in ("blocked", "blocked_end") if key in given
    }
    with given.pointing():
        return Drill(
            rows=given.count("rows", ROWS),
            spacing=given.quantity("spacing", SPACING, tag="row spacing"),
            blocked=shut.get("blocked", 0),
            blocked_end=shut.get("blocked_end", 0),
            scale=scale,
            gears=gears or (Gear(),),
        )


def wheel(given: Given) -> Wheel | None:
    """Read the drive wheel, rolled or taped; None where neither was written."""
    if "rolled" in given and "taped" in given:
        raise given.refuse("taped", say("enter the rolled distance or the tape, not both"))
    if "rolled" in given:
        if "slip" in given:
            raise given.refuse(
                "slip", say("leave it blank: a rolled distance already includes slip")
            )
        return rolled(given.quantity("rolled", TRAVEL, tag="rolled distance"))
    if "taped" not in given:
        return None
    if "slip" not in given:
        raise given.refuse("slip", say("a tape can't measure slip: enter slip too, such as 3 ± 2%"))
    slip = given.share("slip", tag="slip")
    return taped(given.quantity("taped", TRAVEL, tag="taped circumference"), slip=slip)


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


def wheel_needed(given: Given) -> Wheel:
    """Read the drive wheel where there must be one."""
    found = wheel(given)
    if found is None:
        need = say(
            "enter the distance rolled in one turn, or the tape around the tire with its slip"
        )
        raise given.refuse("rolled", need)
    return found


def run(given: Given, drill: Drill, wheel: Wheel | None, *, wheel_of: Given) -> Run:
    """Read what was turned, pulled or sown for one catch.

    Parameters
    ----------
    given : Given
        With one of turns, distance, crank_turns (and per_turn), area.
    wheel_of : Given
        Where the wheel would have been written.
    """
    way = only_one(given, RUNS, say("enter the turns or the distance of the catch"))
    if way == "distance":
        return driven(given.quantity("distance", LENGTH, tag="measured distance"))
    if way == "area":
        return sown(given.quantity("area", FIELD, tag="area"), drill)
    if way == "crank_turns":
        return _cranked(given, wheel, wheel_of)
    turns = given.quantity("turns", TURNS, tag="turn count")
    return turned(wheel or wheel_needed(wheel_of), turns)


def _cranked(given: Given, wheel: Wheel | None, wheel_of: Given) -> Run:
    """Crank turns: so many for one wheel turn, or so much ground for each."""
    crank = given.quantity("crank_turns", TURNS, tag="turn count")
    text = given.text("per_turn")
    if is_bare(text):
        ratio = given.exact("per_turn", NUMBER)
        return turned(wheel or wheel_needed(wheel_of), crank, crank_per_wheel=ratio)
    per_turn = given.quantity("per_turn", TRAVEL, tag="rolled distance")
    return turned(rolled(per_turn), crank, crank_per_wheel=1.0)


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
    if not min(weights) >= 0 or not max(weights) > 0:
        raise given.refuse(key, say("enter weights of 0 or more, at least one above 0"))
    return found


def weigh_scale(given: Given, *, tolerance: str) -> WeighScale:
    """Read the scale that weighs: its step and, under ``tolerance``, its limits."""
    usual = WeighScale()
    limits = given.reading(tolerance, SCALE_STEP).value if tolerance in given else None
    step = given.exact("resolution", SCALE_STEP) if "resolution" in given else usual.resolution
    with given.pointing(scale_tolerance=tolerance):
        return WeighScale(resolution=step, tolerance=limits)


def prior(given: Given) -> Prior:
    """Read what is known of the rows' spread."""
    if "row_cv" not in given:
        return Prior()
    return Prior(row_cv=nominal(given.share("row_cv", tag="row variation")))


def field_ratio(given: Given, key: str) -> Quantity:
    """Read field rate ÷ static rate, 1 where it is not known."""
    return given.ratio(key, tag="field ratio") if key in given else 1.0


def test_weight(given: Given) -> float | None:
    """Read what a measure of this seed weighs, None where it was not written. [kg/m³]"""
    return given.exact("test_weight", TEST_WEIGHT) if "test_weight" in given else None


def tolerance(given: Given) -> float | None:
    """Read how far from the target a rate may lie, None where it was not written. [-]"""
    return nominal(given.share("tolerance", tag="tolerance")) if "tolerance" in given else None


def target(given: Given, key: str, *, test_weight: float | None) -> Target:
    """Read the rate wanted, its tolerance, and which rate must meet it."""
    given_tolerance = tolerance(given)
    on = given.one_of("on", ("field", "static")) if "on" in given else "field"
    rate = given.exact(key, RATE, test_weight=test_weight)
    with given.pointing(target=key):
        return Target(
            rate=rate,
            tolerance=TOLERANCE if given_tolerance is None else given_tolerance,
            on="static" if on == "static" else "field",
        )
