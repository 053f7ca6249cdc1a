"""``evenstand calibrate``: where the lever goes next."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import click

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say, series
from evenstand.report.json import as_json
from evenstand.tasks.boxes.job import set_box
from evenstand.tasks.boxes.part import boxes_named
from evenstand.tasks.calibration.setting import Setting, where_next
from evenstand.tasks.documents.setting import setting_shown
from evenstand.tasks.job.file import read_job
from evenstand.tasks.job.lines import in_file, parse
from evenstand.tasks.job.tables import check_tables, in_tables, many
from evenstand.tasks.job.writer import Journal
from evenstand.tasks.parsing.given import Given

from .clock import this_month
from .dialogue import Dialogue, start
from .files import read_text
from .flags import Flag, answers, example
from .output import Out


@click.command("calibrate", epilog=example("evenstand calibrate heron.toml --working"))
@click.argument("file", required=False, type=click.Path(path_type=Path))
@click.option("--continue", "go_on", is_flag=True, help="Pick up where FILE left off.")
@click.option("--box", metavar="NAME", help="Set this box to the rate its seed calls for.")
@answers
def calibrate(out: Out, file: Path | None, go_on: bool, *, box: str | None) -> None:
    """Get the next lever setting.

    From FILE, a TOML file with drill, chart, target and the catches so far. Without
    FILE it asks one question at a time, and saves every answer in a file.
    """
    if box is not None and (file is None or go_on):
        raise MeasurementError(
            "--box", box, say("enter a complete FILE with its mix and boxes too")
        )
    if file is None or go_on:
        talk(file, out)
        return
    found = from_text(read_text(file), name=file.name, box=box)
    if out.json:
        out.document(as_json(found, out.style))
    else:
        out.warnings(found.job.warnings)
        out.show(setting_shown(found, out.pen))


def from_text(text: str, *, name: str, box: str | None = None) -> Setting:
    """Work out where to go next from a job file's text, for one of its boxes if asked."""
    with in_file(text, file=name):
        tables = parse(text, file=name)
        if not box:
            _refuse_boxes(tables)
        try:
            if box:
                return set_box(tables, Given({"box": box}, Flag), today=this_month(None))
            with in_tables(tables):
                return where_next(read_job(tables))
        except MeasurementError as refused:
            refused = refused if box else _or_box(refused, tables, name)
            raise _or_ask(refused, name) from None


def _refuse_boxes(tables: Mapping[str, Any]) -> None:
    """Refuse a file of several boxes where nobody said which."""
    if names := boxes_named(tables):
        need = say("choose a box to calibrate: {names}", names=series(names, last="or"))
        raise MeasurementError("--box", None, need)


def _or_box(refused: MeasurementError, tables: Mapping[str, Any], name: str) -> MeasurementError:
    """Offer to take a missing target from the mix."""
    no_rate = refused.path == ("target", "rate") and refused.given is None
    if not no_rate or "boxes" not in tables:
        return refused
    boxes = series([each.given.text("name") for each in many(tables, "boxes")], last="or")
    need = say(
        "{need}, or use the mix's rate for {boxes}: evenstand calibrate {file} --box NAME",
        need=refused.need,
        file=name,
        boxes=boxes,
    )
    return MeasurementError(refused.path, None, need)


def _or_ask(refused: MeasurementError, name: str) -> MeasurementError:
    """Offer the questions where something is only missing."""
    if refused.given is not None:
        return refused
    need = say(
        "{need}, or answer the questions: evenstand calibrate {file} --continue",
        need=refused.need,
        file=name,
    )
    return MeasurementError(refused.path, None, need)


def talk(file: Path | None, out: Out) -> None:
    """Ask the questions one by one, from the start or from where a file stops."""
    if out.json:
        raise MeasurementError(
            "--json", None, say("enter a complete FILE too: --json cannot ask questions")
        )
    if file is None:
        start(out)
        return
    text = read_text(file)
    with in_file(text, file=file.name):
        answers = parse(text, file=file.name)
        check_tables(answers)
        _refuse_bad_answers(answers)
    Dialogue(Journal(file, text), answers, out).run()


def _refuse_bad_answers(answers: Mapping[str, Any]) -> None:
    """Refuse what is in a file and cannot be used; what is missing will be asked."""
    try:
        read_job(answers)
    except MeasurementError as refused:
        if refused.given is not None:
            raise
