"""The Set step from a TOML file: one small reader for each table.

A later step of the job adds its tables to `file_tables.KEYS` and a reader here.
"""

from collections.abc import Mapping
from typing import Any

from msgspec.structs import replace

from evenstand.book.kinds import machine as kept
from evenstand.book.kinds import work
from evenstand.book.kinds.details import detail
from evenstand.engine.calibration.chart import Chart, scaled_points
from evenstand.engine.catch.weighing import WeighScale
from evenstand.engine.drill.drill import Drill
from evenstand.engine.drill.travel import Wheel
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import NUMBER, RATE

from ..drill.form import read_scale
from ..drill.machines import engine_chart, engine_drill, value_of
from ..parsing import reading
from ..parsing.given import Given
from ..parsing.structs import amount, read
from ..parsing.warned import Warned, about_small, ask_about
from ..parsing.writing import Writing, as_typed
from .calibration import CatchMade, Job, job_of, weigh_scales
from .said import drill_in, run_in, test_weight_in, wanted_in, wheel_in
from .tables import InTables, JobTable, check_names, in_tables, many, one


def read_job(file: Mapping[str, Any]) -> Job:
    """Make a job of parsed TOML.

    Raises
    ------
    MeasurementError
        Naming the field as ``[table] key`` or ``[[table]] 2 key``.
    """
    check_names(file)
    of_drill, seed, target, weighing, field = (
        one(file, name).given for name in ("drill", "seed", "target", "weighing", "field")
    )
    machine, job = _drill(file)
    drill, wheel = read_drill(file), wheel_in(of_drill)
    wanted = wanted_in(target, "rate", of_seed=seed)
    body, catches = _body(job, weighing, field), many(file, "catch")
    with in_tables(file):
        scales = weigh_scales(body, [reading.as_typed(each.given) for each in catches])
        made = tuple(
            _catch(each.given, drill, wheel, scale=scale)
            for each, scale in zip(catches, scales, strict=True)
        )
        return job_of(
            machine,
            body,
            wanted,
            names=[given.text("name") for given in (of_drill, seed, field) if "name" in given],
            charts=charts(file, "chart", drill),
            history=charts(file, "history", drill),
            catches=made,
            warnings=(
                *(q for given in (of_drill, seed) for q in ask_about(given)),
                *ask_about(target, test_weight=value_of(wanted.test_weight)),
                *_small(catches, made),
            ),
        )


def read_drill(file: Mapping[str, Any]) -> Drill:
    """Read the drill with its scale and gears, and the rows shut off."""
    with in_tables(file):
        return engine_drill(*_drill(file))


def _drill(file: Mapping[str, Any]) -> tuple[kept.Drill, work.Job]:
    tables = many(file, "drill.gears")
    gears = tuple(_drive(each.given) for each in tables)
    names = [gear.name for gear in gears]
    for i, table in enumerate(tables):
        if names[i] in names[:i]:
            raise table.given.refuse("name", say("use a different name for each gear"))
    given = one(file, "drill").given
    reading.refuse_strays(given)
    return drill_in(given, scale=_scale(file), gears=gears)


def _body(job: work.Job, weighing: Given, field: Given) -> work.Job:
    """Add what a book keeps of a job and a file has in other tables."""
    with Writing(weighing) as form, Writing(field) as of_field:
        return replace(
            job,
            resolution=amount(form, "resolution", detail(work.Job, "resolution")),
            scale_tolerance=amount(form, "tolerance", detail(work.Job, "scale_tolerance")),
            field_ratio=amount(of_field, "ratio", detail(work.Job, "field_ratio")),
        )


def charts(file: Mapping[str, Any], name: str, drill: Drill) -> tuple[Chart, ...]:
    """Read charts, or the drill's own earlier rates, and see that they fit the drill."""
    seed = value_of(test_weight_in(one(file, "seed").given))
    return tuple(_chart(table, drill, test_weight=seed) for table in many(file, name))


def _chart(table: JobTable, drill: Drill, *, test_weight: float | None) -> Chart:
    given = table.given
    with (
        given.pointing(chart_points="points", chart_test_weight="test_weight"),
        Writing(given) as form,
    ):
        gear = drill.gear(form.text("gear")).name
        weight = amount(form, "test_weight", detail(kept.Chart, "test_weight"))
        points = tuple(_point(given, pair, value_of(weight)) for pair in table.lists("points"))
        said = read(form, kept.Chart, drill="", points=points, gear=gear, test_weight=weight)
        chart = engine_chart(said, with_test_weight=True)
        _fits(chart, drill, given, test_weight=test_weight)
    return chart


def _fits(chart: Chart, drill: Drill, given: Given, *, test_weight: float | None) -> None:
    if chart.test_weight is not None and test_weight is None:
        need = say("the chart has its own: enter this seed's too")
        raise MeasurementError(InTables("seed", "test_weight"), None, need)
    if chart.test_weight is None and test_weight is not None:
        need = say("you entered this seed's: enter the chart seed's too, or neither one")
        raise given.refuse("test_weight", need)
    if len(dict(chart.points)) < len(chart.points):
        raise given.refuse("points", say("enter each setting only once"))
    scaled_points(chart, drill, test_weight=test_weight)


def _point(given: Given, pair: Any, test_weight: float | None) -> kept.ChartPoint:
    if not isinstance(pair, list) or len(pair) != 2:
        need = say("enter each point as a setting and its rate, [30, {rate}]", rate='"48 lb/ac"')
        raise given.piece("points", str(pair)).refuse("points", need)
    setting, of_rate = (given.piece("points", str(each)) for each in pair)
    at = of_rate.part(setting.text("points"), "points", NUMBER).value
    found = of_rate.reading("points", RATE, test_weight=test_weight)
    of_rate.plain("points", found, RATE)
    return kept.ChartPoint(setting=at, rate=as_typed(found))


def _drive(given: Given) -> kept.Gear:
    if "driver" in given or "driven" in given:
        if "ratio" in given:
            raise given.refuse("ratio", say("leave it out: driver and driven already set it"))
        ratio = given.exact("driver", NUMBER) / given.exact("driven", NUMBER)
    else:
        ratio = given.exact("ratio", NUMBER)
    return kept.Gear(name=given.text("name"), ratio=ratio)


def _scale(file: Mapping[str, Any]) -> kept.Scale | None:
    with Writing(one(file, "drill.scale").given) as form:
        return read_scale(form) if form.given.texts else None


def _catch(given: Given, drill: Drill, wheel: Wheel | None, *, scale: WeighScale) -> CatchMade:
    reading.refuse_strays(given)
    setting = reading.setting(given, drill)
    run = run_in(given, drill, wheel)
    rows = reading.rows_caught(given, drill=drill, every="area" in given)
    with given.pointing():
        gear = drill.gear(given.texts.get("gear"))
    return CatchMade(
        setting=setting,
        gear=gear,
        bags=reading.bags(given, rows=rows, drill=drill),
        run=run,
        scale=scale,
        note=given.text("note") if "note" in given else "",
    )


def _small(tables: list[JobTable], made: tuple[CatchMade, ...]) -> list[Warned]:
    """Ask about bags that hold little, and about rates that are rarely meant."""
    asked = []
    for table, catch in zip(tables, made, strict=True):
        key = next(key for key in reading.WEIGHTS if key in table.given)
        resolution = catch.scale.resolution
        asked += about_small(table.given.path(key), [catch.bags], resolution=resolution)
    return asked
