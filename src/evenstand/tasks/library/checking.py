"""Whether what is to be kept can be used: the rules of each kind, asked of what was made of it.

A form reads texts and comes to a body, a program sends one: both are asked here.
"""

from collections.abc import Callable, Mapping
from typing import Any, cast

from evenstand.book.book import Book
from evenstand.book.kinds import machine, seed, sown, work
from evenstand.book.kinds.bodies import Photo
from evenstand.book.kinds.shape import Body
from evenstand.engine.catch.weighing import Prior
from evenstand.engine.quantities.errors import MeasurementError, Path
from evenstand.engine.quantities.phrases import say
from evenstand.engine.seed.tag import Month

from ..boxes.kept import members
from ..calibration.catch import catch
from ..drill.machines import prior
from ..drill.outline import read_outline
from ..drill.rules import check_chart, check_drill, check_once
from ..job.calibration import target
from ..job.kept import Kept, catch_made, find, job_drill, job_wheel, named, scales_of, standing
from ..mix.kept import mix_said
from ..mix.mix import read_mix
from ..record.form import check_record
from ..seed.kept import read_kept
from ..seed.photo import check_size
from ..seed.picture import media_of
from ..seeding.rules import check_sown
from ..stand.count import check_count
from ..stand.wish_form import CROPS, KINDS

REPLICATE = 100  # seeds of one, as a count by replicates has them
RUNS = ("turns", "crank_turns", "distance", "area")


def check(body: Body, book: Book, *, today: Month) -> None:
    """See that a body can be used as forms and steps will use it.

    Parameters
    ----------
    body : Body
        Its amounts read by `amounts.read_amounts`.
    book : Book
        Where what it names must be.
    today : Month
        No test can be younger.

    Raises
    ------
    MeasurementError
        Under the name of a field, or the engine's name of what is in it:
        ``scale high``, ``wanted box``.
    """
    _check_links(body, book)
    asked = _CHECKS.get(type(body))
    if asked:
        asked(body, book, today)


def _check_links(body: Body, book: Book) -> None:
    for field, kind in _LINKS:
        id = getattr(body, field, None)
        there = standing if kind is work.Job else named
        if isinstance(id, str) and there(book, id, kind) is None:
            raise MeasurementError(field, id, say("enter the ID of something in this book"))


_LINKS: tuple[tuple[str, type[Body]], ...] = (
    ("job", work.Job),
    ("drill", machine.Drill),
    ("field", work.Field),
    ("mix", seed.Mix),
    ("lot", seed.Lot),
    ("of", Body),
)


def check_job(job: work.Job, book: Book) -> None:
    """See that each box has one rate that can be met, and what it names is there."""
    check_once(Path("wanted", "box"), [wanted.box for wanted in job.wanted])
    for wanted in job.wanted:
        target(wanted)
        if wanted.chart is not None and standing(book, wanted.chart, machine.Chart) is None:
            need = say("enter the ID of something in this book")
            raise MeasurementError(Path("wanted", "chart"), wanted.chart, need)


def check_catch(body: work.Catch, kept: Kept) -> None:
    """See that a catch of a job can be measured."""
    drill, wheel = job_drill(kept), job_wheel(kept)
    drill.check(body.setting)
    runs = [key for key in RUNS if getattr(body, key)]
    if len(runs) != 1:
        need = say("enter the turns, the distance or the area, only one of them")
        raise MeasurementError((runs or ["turns"])[-1], None, need)
    _check_rows(body, rows=drill.rows)
    (scale,) = scales_of(kept.body, [body])
    made = catch_made(kept, body, drill=drill, wheel=wheel, scale=scale)
    catch(
        [made.bags],
        run=made.run,
        drill=drill,
        scale=scale,
        prior=prior(kept.drill) if kept.drill else Prior(),
    )


def _check_rows(body: work.Catch, *, rows: int) -> None:
    numbered = [bag.row + i for bag in body.bags if bag.row for i in range(bag.rows)]
    check_once(Path("bags", "row"), numbered)
    if numbered and max(numbered) > rows:
        raise MeasurementError(
            Path("bags", "row"), max(numbered), say("enter no more than {n}", n=rows)
        )
    if body.tare and not body.gross:
        need = say("use it together with {partner}", partner="gross")
        raise MeasurementError("tare", body.tare.value, need)


def _check_chosen(body: work.Chosen, book: Book) -> None:
    drill = job_drill(find(book, body.job))
    drill.gear(body.gear or None)
    drill.check(body.setting)


def _check_split(body: work.Split, book: Book) -> None:
    kept = find(book, body.job)
    inside = [name for box in body.boxes for name in box.members]
    check_once(Path("boxes", "members"), inside)
    _check_known("boxes members", inside, members(book, kept))
    _check_boxes(Path("boxes", "box"), [box.box for box in body.boxes], kept)
    for box in body.boxes:
        if bool(box.carrier) != (box.carrier_rate is not None):
            need = say("enter a carrier and its rate, or neither")
            raise MeasurementError(Path("boxes", "carrier"), box.carrier, need)


def _check_order(body: work.Order, book: Book) -> None:
    kept = find(book, body.job)
    _check_boxes(Path("heels", "box"), [of.box for of in body.heels], kept)
    _check_boxes(Path("catches", "box"), [of.box for of in body.catches], kept)
    if body.sure is not None and body.sure not in work.ODDS:
        raise MeasurementError("sure", body.sure, work.ODDS.need)


def _check_boxes(field: Path, names: list[str], kept: Kept) -> None:
    check_once(field, names)
    _check_known(field, names, [box.name for box in kept.drill.boxes] if kept.drill else [])


def _check_known(field: str | Path, names: list[str], known: Any) -> None:
    for name in names:
        if name not in known:
            raise MeasurementError(
                field, name, say("choose one of {names}", names=", ".join(known))
            )


def _check_mix(body: seed.Mix, book: Book, today: Month) -> None:
    """See that a mix can be right; what is only missing from it may come later."""
    try:
        read_mix(mix_said(book, body, work.Field(name="")), today=today)
    except MeasurementError as refused:
        if refused.given is not None or not body.members:
            raise


def _check_photo(body: Photo) -> None:
    if media_of(body.data) != body.media:
        need = say("choose a photo: a JPEG, PNG or WebP file")
        raise MeasurementError("data", body.media, need)
    try:
        check_size(body.data, body.media)
    except MeasurementError as refused:
        raise refused.at("data") from None


def check_field(body: work.Field) -> None:
    """See that the outline of a field is one."""
    if body.outline:
        read_outline(body.outline)


def _read_lot(body: seed.Lot, today: Month) -> None:
    read_kept(body, today=today)


def _check_count(body: seed.SeedCount, book: Book, today: Month) -> None:
    if not body.samples:
        raise MeasurementError("samples", (), say("enter at least one sample"))
    if body.way == "replicates":
        for sample in body.samples:
            if sample.seeds != REPLICATE:
                raise MeasurementError(
                    Path("samples", "seeds"), sample.seeds, say("use 100 seeds in each")
                )
    read_kept(_lot(body.lot, book), today=today, count=body)


def _check_test(body: seed.GerminationTest, book: Book, today: Month) -> None:
    if not body.dishes:
        raise MeasurementError("dishes", (), say("enter at least one towel"))
    if body.counted:
        read_kept(_lot(body.lot, book), today=today, test=body)
    elif any(dish.sprouted is not None for dish in body.dishes) or body.hard is not None:
        need = say("enter what sprouted in every towel, or leave all of them blank for now")
        raise MeasurementError(Path("dishes", "sprouted"), None, need)


def _lot(id: str, book: Book) -> seed.Lot:
    return cast(seed.Lot, book.get(id).body)


def _drill(id: str, book: Book) -> machine.Drill:
    return cast(machine.Drill, book.get(id).body)


def _check_body_of_catch(body: work.Catch, book: Book) -> None:
    check_catch(body, find(book, body.job, box=body.box or None))


def _check_stand(body: work.StandCount, book: Book) -> None:
    kept = find(book, body.job)
    check_count(body, spacing=job_drill(kept).between_open if kept.drill else None)


def _check_wish(body: work.StandWish) -> None:
    for field, word, words in (
        (Path("crop"), body.crop, CROPS),
        *((Path("live", i, "usual"), each.usual, KINDS) for i, each in enumerate(body.live, 1)),
    ):
        if word and word not in words:
            need = say("choose one of {choices}", choices=", ".join(words))
            raise MeasurementError(field, word, need)


def _check_sown(body: Any, book: Book) -> None:
    check_sown(body, find(book, body.job, box=getattr(body, "box", "") or None))


def _check_record(body: work.Record, book: Book) -> None:
    kept = find(book, body.job)
    _check_boxes(Path("used", "box"), [used.box for used in body.used if used.box], kept)
    check_record(body)


_CHECKS: Mapping[type[Body], Callable[[Any, Book, Month], None]] = {
    machine.Drill: lambda body, book, today: check_drill(body),
    machine.Chart: lambda body, book, today: check_chart(body, _drill(body.drill, book)),
    seed.Lot: lambda body, book, today: _read_lot(body, today),
    work.Field: lambda body, book, today: check_field(body),
    seed.Mix: _check_mix,
    seed.SeedCount: _check_count,
    seed.GerminationTest: _check_test,
    work.Job: lambda body, book, today: check_job(body, book),
    work.Split: lambda body, book, today: _check_split(body, book),
    work.Order: lambda body, book, today: _check_order(body, book),
    work.Catch: lambda body, book, today: _check_body_of_catch(body, book),
    work.Chosen: lambda body, book, today: _check_chosen(body, book),
    work.StandCount: lambda body, book, today: _check_stand(body, book),
    work.StandWish: lambda body, book, today: _check_wish(body),
    **dict.fromkeys(
        (sown.Load, sown.Level, sown.Ground, sown.Moved, sown.Check, sown.Finished),
        lambda body, book, today: _check_sown(body, book),
    ),
    work.Record: lambda body, book, today: _check_record(body, book),
    Photo: lambda body, book, today: _check_photo(body),
}
