"""A job as it is typed: into what is kept, and back into the fields of its form."""

from typing import Literal, cast

from evenstand.book.work import Field, Job, Wanted
from evenstand.engine.quantities.phrases import System, say
from evenstand.engine.quantities.units import (
    FIELD,
    NUMBER,
    RATE,
    ROWS,
    SCALE_STEP,
    SHARE,
    SPEED,
    TEST_WEIGHT,
    TRAVEL,
)

from ..drill.outline import kept_outline
from ..parsing.given import Given
from ..parsing.writing import Writing
from .kept import target

ONS = ("field", "static")
DEARER = ("neither", "thin stand", "wasted seed")
MOST_WANTED = 6


def read_job(given: Given) -> Job:
    """Read a job from the fields of its form; its field is read by `read_field`.

    Raises
    ------
    RefusalsError
        Each under the field it was typed in.
    """
    form = Writing(given)
    job = Job(
        name=form.name("name"),
        season=form.text("season"),
        field=form.text("field") or None,
        drill=form.text("drill") or None,
        wanted=_wanted(form),
        blocked=form.count("blocked", ROWS, otherwise=0),
        blocked_end=form.count("blocked_end", ROWS, otherwise=0),
        rolled=form.amount("rolled", TRAVEL),
        taped=form.amount("taped", TRAVEL),
        slip=form.zero_or_more("slip", SHARE),
        field_ratio=form.amount("field_ratio", SHARE if _per_cent(given) else NUMBER),
        speed=form.amount("speed", SPEED),
        resolution=form.amount("resolution", SCALE_STEP),
        scale_tolerance=form.zero_or_more("scale_tolerance", SCALE_STEP),
        note=form.text("note"),
    )
    form.done()
    return job


def _per_cent(given: Given) -> bool:
    return "%" in given.texts.get("field_ratio", "")


def _wanted(form: Writing) -> tuple[Wanted, ...]:
    """Read a line for each box a rate is wanted from."""
    lines = []
    for i in range(1, MOST_WANTED + 1):
        keys = ("rate", "tolerance", "test_weight", "seed")
        if not any(form.text(f"wanted{i}_{key}") for key in keys):
            continue
        lines.append(_one_wanted(form, f"wanted{i}_"))
    boxes = [line.box for line in lines]
    for i, box in enumerate(boxes, 1):
        if box in boxes[: i - 1]:
            need = say("a rate is wanted from this box already")
            form.refuse(form.given.refuse(f"wanted{i}_box", need))
    return tuple(lines)


def _one_wanted(form: Writing, line: str) -> Wanted:
    test_weight = form.amount(f"{line}test_weight", TEST_WEIGHT)
    weight = test_weight.value if test_weight else None
    on, dearer = form.text(f"{line}on"), form.text(f"{line}dearer")
    wanted = Wanted(
        rate=form.needed(f"{line}rate", RATE, test_weight=weight),
        box=form.text(f"{line}box"),
        seed=form.text(f"{line}seed"),
        test_weight=test_weight,
        chart=form.text(f"{line}chart") or None,
        tolerance=form.amount(f"{line}tolerance", SHARE),
        on=cast(Literal["field", "static"], on if on in ONS else "field"),
        gear=form.text(f"{line}gear"),
        dearer=cast(
            Literal["thin stand", "wasted seed", "neither"],
            dearer if dearer in DEARER else "neither",
        ),
    )

    def fits() -> None:
        with form.given.pointing(target=f"{line}rate", tolerance=f"{line}tolerance"):
            target(wanted)

    form.attempt(fits, otherwise=None)
    return wanted


def job_texts(job: Job) -> dict[str, str]:
    """Return the fields of the form as they were filled in."""
    amounts = ("rolled", "taped", "slip", "field_ratio", "speed", "resolution", "scale_tolerance")
    texts = {name: kept.text for name in amounts if (kept := getattr(job, name))}
    texts |= {"name": job.name, "season": job.season, "note": job.note}
    texts |= {"field": job.field or "", "drill": job.drill or ""}
    texts |= {name: str(n) for name in ("blocked", "blocked_end") if (n := getattr(job, name))}
    for i, wanted in enumerate(job.wanted, 1):
        texts |= _wanted_texts(wanted, f"wanted{i}_")
    return texts


def _wanted_texts(wanted: Wanted, line: str) -> dict[str, str]:
    names = ("box", "seed", "gear", "on", "dearer")
    texts = {f"{line}{name}": str(getattr(wanted, name)) for name in names}
    texts |= {f"{line}rate": wanted.rate.text, f"{line}chart": wanted.chart or ""}
    texts |= {f"{line}tolerance": wanted.tolerance.text} if wanted.tolerance else {}
    return texts | ({f"{line}test_weight": wanted.test_weight.text} if wanted.test_weight else {})


def read_field(given: Given, *, units: System = "us") -> Field | None:
    """Read a new field from its fields in the form; None where none was named.

    Parameters
    ----------
    units : "us" or "metric"
        Of an area that the outline tells, where none was written.

    Raises
    ------
    RefusalsError
        Each under the field it was typed in.
    """
    form = Writing(given)
    if not form.text("field_name") and not form.text("field_area"):
        return None
    area, outline = form.amount("field_area", FIELD), ""
    if "field_outline" in given:
        with given.pointing(outline="field_outline"):
            outline, measured = kept_outline(given.text("field_outline"), units=units)
        area = area or measured
    found = Field(
        name=form.name("field_name"),
        area=area,
        state=form.text("field_state"),
        note=form.text("field_note"),
        outline=outline,
    )
    form.done()
    return found
