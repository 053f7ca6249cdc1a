"""What the commands work out without a book, through the API: the same inputs, as texts."""

from collections.abc import Iterable, Mapping
from typing import Annotated, Any

import msgspec
from msgspec import Meta, Struct

from evenstand.engine.seed.species import Species
from evenstand.engine.seed.species_names import one
from evenstand.engine.seed.tag import Month
from evenstand.tasks.calibration.catch import Caught, read_catch
from evenstand.tasks.calibration.rows import Rows, read_rows
from evenstand.tasks.calibration.turns import Turns, read_turns
from evenstand.tasks.parsing import reading
from evenstand.tasks.parsing.dates import month
from evenstand.tasks.parsing.given import Given, Written
from evenstand.tasks.parsing.keys import COUNTS, TAG
from evenstand.tasks.parsing.repeats import repeated
from evenstand.tasks.seed.species_table import species_table
from evenstand.tasks.seed.tag import TagRead, read_tag_result

from ..site import here
from .answers import sent
from .operations import UNITS, Operation, Parameter, Short, reckons, result_of

Said = Annotated[str, Meta(max_length=2000, description='As typed: "7.5 in", "3 ± 2%".')]
Many = Annotated[tuple[Said, ...], Meta(max_length=50)]

DRILL = ("blocked", "blocked_end", "rolled", "taped", "slip")
CATCH = (
    *(*DRILL, "turns", "distance", "crank_turns", "per_turn", "area", "rows_caught"),
    *(*reading.WEIGHTS, "tare", "resolution", "scale_tolerance", "row_cv"),
    *("target", "tolerance", "on", "test_weight", "field_ratio"),
)
TAGGED = (
    *(*TAG[2:], *COUNTS, "resolution", "rate", "basis", "test_weight", "price"),
    *("species", "count_hard", "state", "age_limit", "today"),
)


def _inputs(
    name: str, *, needed: Iterable[str], may: Iterable[str], many: Iterable[str] = ()
) -> type[Struct]:
    """Make the type of what an operation takes."""
    fields: list[Any] = [(key, Said) for key in needed]
    fields += [(key, Said | None, None) for key in may]
    fields += [(key, Many, ()) for key in many]
    return msgspec.defstruct(name, fields, forbid_unknown_fields=True, kw_only=True, frozen=True)


TurnsAsked = _inputs("TurnsAsked", needed=("rows", "spacing", "area"), may=(*DRILL, "speed"))
CatchAsked = _inputs("CatchAsked", needed=("rows", "spacing"), may=CATCH, many=("again",))
RowsAsked = _inputs(
    "RowsAsked",
    needed=("weights",),
    may=("resolution", "limit", "row_cv"),
    many=("again", "columns"),
)
TagAsked = _inputs("TagAsked", needed=("purity", "germination"), may=TAGGED)


def _sent(kind: type[Struct]) -> tuple[Given, Mapping[str, tuple[str, ...]]]:
    """Return the inputs that were sent, and those that may be sent many times."""
    asked = msgspec.structs.asdict(sent(kind))
    texts = {key: text for key, text in asked.items() if isinstance(text, str)}
    many = {key: each for key, each in asked.items() if isinstance(each, tuple)}
    return Given(texts), many


def turns() -> Turns:
    """Tell how many turns stand for a piece of ground."""
    given, _ = _sent(TurnsAsked)
    return read_turns(given)


def catch() -> Caught:
    """Work out the rate from a catch."""
    given, many = _sent(CatchAsked)
    key = next((key for key in reading.WEIGHTS if key in given), "net")
    found = read_catch(given, repeated(many["again"], key, path=Written("again"), also=given))
    return found


def rows() -> Rows:
    """Tell how even rows are."""
    given, many = _sent(RowsAsked)
    found = read_rows(
        given,
        repeated(many["again"], "weights", path=Written("again"), also=given),
        repeated(many["columns"], "columns", path=Written("columns"), also=given),
    )
    return found


def tag() -> TagRead:
    """Tell what a tag comes to."""
    given, _ = _sent(TagAsked)
    return read_tag_result(given, today=today(given))


def today(given: Given) -> Month:
    """Return the month that was given, or the one the clock says."""
    return month(given, "today") if "today" in given else here.this_month()


def species(*, name: str) -> Species:
    """Tell what the table knows of a species."""
    return one(name, species_table(), field="name")


OPERATIONS = (
    reckons(
        "turns",
        "Tell how many turns of the drive wheel stand for a piece of ground.",
        turns,
        takes=TurnsAsked,
    ),
    reckons(
        "catch",
        "Work out the rate from a catch, with its range and what would make it surer.",
        catch,
        takes=CatchAsked,
    ),
    reckons(
        "rows",
        "Tell how even rows are, which is odd and what to check.",
        rows,
        takes=RowsAsked,
    ),
    reckons(
        "tag",
        "Figure pure live seed from a seed tag.",
        tag,
        takes=TagAsked,
    ),
    Operation(
        method="GET",
        path="/species",
        name="read_species",
        about="Tell what the table knows of a species, by any of its names.",
        query=(
            Parameter(name="name", type=Short, about="Such as hairy vetch.", needed=True),
            UNITS,
        ),
        refuses=(422,),
        **result_of(species),
    ),
)
