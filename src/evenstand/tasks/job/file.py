"""The Set step from a TOML file: one small reader for each table.

A later step of the job adds its tables to `file_tables.KEYS` and a reader here.
"""

from collections.abc import Mapping
from itertools import pairwise
from typing import Any

from evenstand.engine.calibration.chart import Chart, scaled_points
from evenstand.engine.calibration.choose import Dearer
from evenstand.engine.catch.target import Target
from evenstand.engine.drill.drill import Drill, Gear, Scale
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import NUMBER, RATE, SHARE, SPACING

from ..drill.form import read_scale
from ..drill.machines import engine_scale
from ..parsing import reading
from ..parsing.given import Given
from ..parsing.warned import Warned, about_small, ask_about
from ..parsing.writing import Writing
from .calibration import CatchMade, Job
from .tables import InTables, JobTable, check_names, many, one

DEARER: tuple[Dearer, ...] = ("thin stand", "wasted seed", "neither")


def read_job(file: Mapping[str, Any]) -> Job:
    """Make a job of parsed TOML.

    Raises
    ------
    MeasurementError
        Naming the field as ``[table] key`` or ``[[table]] 2 key``.
    """
    check_names(file)
    of_drill, seed, wanted, field = (
        one(file, name).given for name in ("drill", "seed", "target", "field")
    )
    test_weight = reading.test_weight(seed)
    drill, wheel = read_drill(file), reading.wheel(of_drill)
    target = reading.target(wanted, "rate", test_weight=test_weight)
    scale = reading.weigh_scale(one(file, "weighing").given, tolerance="tolerance")
    catches = many(file, "catch")
    made = tuple(_catch(each.given, drill, of_drill) for each in catches)
    return Job(
        names=tuple(given.text("name") for given in (of_drill, seed, field) if "name" in given),
        drill=drill,
        wheel=wheel,
        charts=charts(file, "chart", drill),
        history=charts(file, "history", drill),
        test_weight=test_weight,
        target=target,
        sown_in=_gear(wanted, drill) if "gear" in wanted else None,
        dearer=_dearer(wanted),
        scale=scale,
        prior=reading.prior(of_drill),
        field_ratio=reading.field_ratio(field, "ratio"),
        catches=made,
        assumed=(
            *reading.slip_as_written(wheel),
            *_tolerance_taken(wanted, target),
            *(reading.rows_shut(drill) if many(file, "chart") or many(file, "history") else ()),
        ),
        warnings=(
            *(q for given in (of_drill, seed) for q in ask_about(given)),
            *ask_about(wanted, test_weight=test_weight),
            *_small(catches, made, resolution=scale.resolution),
        ),
    )


def read_drill(file: Mapping[str, Any]) -> Drill:
    """Read the drill with its scale and gears."""
    gears = tuple(_drive(each.given) for each in many(file, "drill.gears"))
    names = [gear.name for gear in gears]
    if len(set(names)) < len(names):
        again = next(i for i, name in enumerate(names) if name in names[:i])
        given = many(file, "drill.gears")[again].given
        raise given.refuse("name", say("use a different name for each gear"))
    given = one(file, "drill").given
    reading.refuse_strays(given)
    return reading.drill(given, scale=_scale(file), gears=gears)


def charts(file: Mapping[str, Any], name: str, drill: Drill) -> tuple[Chart, ...]:
    """Read charts, or the drill's own earlier rates, and see that they fit the drill."""
    test_weight = reading.test_weight(one(file, "seed").given)
    found = []
    for table in many(file, name):
        chart = _chart(table, drill)
        with table.given.pointing(chart_points="points", chart_test_weight="test_weight"):
            _fits(chart, drill, table.given, test_weight=test_weight)
        found.append(chart)
    return tuple(found)


def _fits(chart: Chart, drill: Drill, given: Given, *, test_weight: float | None) -> None:
    if chart.test_weight is not None and test_weight is None:
        need = say("the chart has its own: enter this seed's too")
        raise MeasurementError(InTables("seed", "test_weight"), None, need)
    if chart.test_weight is None and test_weight is not None:
        need = say("you entered this seed's: enter the chart seed's too, or neither one")
        raise given.refuse("test_weight", need)
    scaled_points(chart, drill, test_weight=test_weight)


def _chart(table: JobTable, drill: Drill) -> Chart:
    given = table.given
    test_weight = reading.test_weight(given)
    gear = _gear(given, drill).name
    spacing = given.exact("spacing", SPACING) if "spacing" in given else None
    points = [_point(given, pair, test_weight) for pair in table.lists("points")]
    if any(a[0] == b[0] for a, b in pairwise(sorted(points))):
        raise given.refuse("points", say("enter each setting only once"))
    with given.pointing(chart_points="points"):
        return Chart(points=tuple(points), gear=gear, spacing=spacing, test_weight=test_weight)


def _point(given: Given, pair: Any, test_weight: float | None) -> tuple[float, float]:
    if not isinstance(pair, list) or len(pair) != 2:
        need = say("enter each point as a setting and its rate, [30, {rate}]", rate='"48 lb/ac"')
        raise given.piece("points", str(pair)).refuse("points", need)
    setting, rate = (str(each) for each in pair)
    at = given.part(setting, "points", NUMBER).value
    of_rate = given.piece("points", rate)
    return at, of_rate.exact("points", RATE, test_weight=test_weight)


def _drive(given: Given) -> Gear:
    if "driver" in given or "driven" in given:
        if "ratio" in given:
            raise given.refuse("ratio", say("leave it out: driver and driven already set it"))
        ratio = given.exact("driver", NUMBER) / given.exact("driven", NUMBER)
    else:
        ratio = given.exact("ratio", NUMBER)
    return Gear(name=given.text("name"), ratio=ratio)


def _scale(file: Mapping[str, Any]) -> Scale | None:
    given = one(file, "drill.scale").given
    if not given.texts:
        return None
    with given.pointing(
        scale_high="high",
        scale_low="low",
        scale_step="step",
        scale_stops="stops",
        scale_closed="closed",
    ):
        form = Writing(given)
        scale = read_scale(form)
        form.done()
        return engine_scale(scale)


def _dearer(given: Given) -> Dearer:
    word = given.one_of("dearer", DEARER) if "dearer" in given else "neither"
    return next(dearer for dearer in DEARER if dearer == word)


def _gear(given: Given, drill: Drill) -> Gear:
    with given.pointing():
        return drill.gear(given.text("gear") if "gear" in given else None)


def _catch(given: Given, drill: Drill, of_drill: Given) -> CatchMade:
    reading.refuse_strays(given)
    setting = reading.setting(given, drill)
    wheel = reading.wheel(of_drill)
    run = reading.run(given, drill, wheel, wheel_of=of_drill)
    rows = reading.rows_caught(given, drill=drill, every="area" in given)
    return CatchMade(
        setting=setting,
        gear=_gear(given, drill),
        bags=reading.bags(given, rows=rows, drill=drill),
        run=run,
        note=given.text("note") if "note" in given else "",
    )


def _tolerance_taken(given: Given, target: Target) -> tuple[Phrase, ...]:
    if "tolerance" in given:
        return ()
    return (say("tolerance {tolerance}", tolerance=SHARE(target.tolerance)),)


def _small(
    tables: list[JobTable], made: tuple[CatchMade, ...], *, resolution: float
) -> list[Warned]:
    """Ask about bags that hold little, and about rates that are rarely meant."""
    asked = []
    for table, catch in zip(tables, made, strict=True):
        key = next(key for key in reading.WEIGHTS if key in table.given)
        asked += about_small(table.given.path(key), [catch.bags], resolution=resolution)
    return asked
