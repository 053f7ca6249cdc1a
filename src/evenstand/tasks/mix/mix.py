"""The Mix step: what is to grow, on every basis, from a job file's lots and members."""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Annotated, Any

from evenstand.engine.mix.advice import compare_density
from evenstand.engine.mix.carbon import CarbonNitrogen
from evenstand.engine.mix.depth import Compromise, compromise
from evenstand.engine.mix.member import ALL_OF_IT, BulkRate, LiveSeeds, OfFull, PlsRate, Whole
from evenstand.engine.mix.mix import design
from evenstand.engine.mix.totals import Mix
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import COST, DENSITY, RATE, SHARE, Kind
from evenstand.engine.quantities.working import Line
from evenstand.engine.quantities.written import ONCE
from evenstand.engine.seed.tag import Month
from evenstand.engine.statistics.budget import nominal

from ..job.tables import InTables, many, one
from ..parsing import reading
from ..parsing.given import Given, Written
from ..parsing.warned import Warned
from ..seed.lots import Shelf, read_shelf
from .cautions import Beware, beware
from .members import Sowing, read_member
from .residue import read_residue

WHOLE = ("share", "seeds", "pls", "bulk")


@dataclass(frozen=True, kw_only=True)
class Mixed:
    """A mix as designed, with all that is said of it.

    ``names`` is that of the field, where it was given; ``members`` stand in
    the order of ``mix.sown``. ``depth`` is None where no depth is known,
    ``carbon`` where no C:N was given.
    """

    KEYS = """
        species=mix.sown total.pls_rate=mix.ranges.pls total.bulk_rate=mix.ranges.bulk
        total.seeds=mix.ranges.seeds total.cost=mix.cost cost_unit say=mix.say groups=mix.groups
        seasons=mix.seasons depth=depth.depth carbon_nitrogen=carbon.range budget=mix.shares
        notes cautions=cautions.say working taken_as=assumed warnings
    """

    names: tuple[str, ...]
    members: tuple[Sowing, ...]
    mix: Mix
    depth: Compromise | None
    carbon: CarbonNitrogen | None
    beside: tuple[Phrase, ...]
    cautions: tuple[Beware, ...]
    assumed: Annotated[tuple[Phrase, ...], ONCE]
    warnings: tuple[Warned, ...]

    @property
    def advice(self) -> tuple[Phrase, ...]:
        """What to sow, and how sure that is, sentence by sentence."""
        return self.mix.advice

    @property
    def cost_unit(self) -> Kind:
        """What costs are counted in."""
        return COST

    @property
    def notes(self) -> tuple[Phrase, ...]:
        """What asks to be minded, and what is worth knowing."""
        return (*self.minded, *self.noted)

    @property
    def minded(self) -> tuple[Phrase, ...]:
        """What asks to be minded."""
        return self.depth.warnings if self.depth else ()

    @property
    def noted(self) -> tuple[Phrase, ...]:
        """What is worth knowing."""
        depth = (self.depth.say,) if self.depth else ()
        carbon = (self.carbon.say,) if self.carbon else ()
        return (*depth, *self.mix.notes, *self.beside, *carbon)

    @property
    def working(self) -> tuple[Line, ...]:
        """The arithmetic of every member."""
        carbon = self.carbon.working if self.carbon else ()
        return (*(line for each in self.mix.sown for line in each.working), *carbon)


def read_mix(file: Mapping[str, Any], *, today: Month) -> Mixed:
    """Read the members of a mix, and turn each into rates on every basis.

    Parameters
    ----------
    file : mapping of str
        A job file as parsed.
    today : Month
        For the age of tests.

    Raises
    ------
    MeasurementError
        Naming the field as ``[[mix]] 2 share``.
    """
    shelf = read_shelf(file, today=today)
    members = read_members(file, shelf)
    whole = one(file, "mix_whole").given
    with in_mix(file):
        mix = design(
            [each.member for each in members], whole=read_whole(whole), uplift=_uplift(whole)
        )
    return mixed(mix, members, shelf=shelf, file=file)


def read_members(file: Mapping[str, Any], shelf: Shelf) -> tuple[Sowing, ...]:
    """Read all members.

    Raises
    ------
    MeasurementError
        For a mix without members, and whatever a member refuses.
    """
    tables = many(file, "mix")
    if not tables:
        need = say("missing: enter a [[mix]] table for each species in the mix")
        raise MeasurementError(InTables("mix"), None, need)
    return tuple(read_member(each, shelf) for each in tables)


def mixed(mix: Mix, members: tuple[Sowing, ...], *, shelf: Shelf, file: Mapping[str, Any]) -> Mixed:
    """Put beside a mix all that is said of it."""
    field = one(file, "field").given
    lots = list({id(each.lot): each.lot for each in members if each.lot is not None}.values())
    carbon, carbon_taken = read_residue(mix, members)
    return Mixed(
        names=(field.text("name"),) if "name" in field else (),
        members=members,
        mix=mix,
        depth=_depth(members),
        carbon=carbon,
        beside=_beside(mix, one(file, "mix_whole").given),
        cautions=beware(lots),
        assumed=(*(each for m in members for each in m.assumed), *carbon_taken),
        warnings=(
            *shelf.warnings,
            *(warned for lot in lots for warned in lot.warnings),
            *(Warned(InTables("mix"), each) for each in mix.warnings),
        ),
    )


@contextmanager
def in_mix(file: Mapping[str, Any]) -> Iterator[None]:
    """Let what the engine refuses of ``mix 2 share`` be named as it stands in the file."""
    try:
        yield
    except MeasurementError as refused:
        if isinstance(refused.path, Written):
            raise
        raise _placed(file, refused) from None


def _placed(file: Mapping[str, Any], refused: MeasurementError) -> MeasurementError:
    whole = one(file, "mix_whole").given
    match refused.path:
        case ("mix", int(number), str(key)):
            given = many(file, "mix")[number - 1].given
            at = given.texts.get(key, refused.given)
            return MeasurementError(given.path(key), at, refused.need)
        case ("uplift",):
            return whole.refuse("uplift", refused.need)
        case ("whole",):
            key = next((key for key in WHOLE if key in whole), "share")
            return whole.refuse(key, refused.need)
        case _:
            return refused.at(InTables("mix"))


def read_whole(given: Given) -> Whole:
    """Read what the rest fills up: all of the full rates where nothing else was written."""
    if not any(key in given for key in WHOLE):
        return ALL_OF_IT
    match reading.only_one(given, WHOLE, say("enter the total that the rest fills up to")):
        case "share":
            return OfFull(given.exact("share", SHARE))
        case "seeds":
            return LiveSeeds(given.exact("seeds", DENSITY))
        case "pls":
            return PlsRate(given.exact("pls", RATE))
        case _:
            return BulkRate(given.exact("bulk", RATE))


def _uplift(given: Given) -> float:
    return given.exact("uplift", SHARE) if "uplift" in given else 0.0


def _beside(mix: Mix, whole: Given) -> tuple[Phrase, ...]:
    """Set the live seeds beside what is printed for the stand that is wanted."""
    if "stand" not in whole:
        return ()
    with whole.pointing():
        return compare_density(nominal(mix.seeds), stand=whole.text("stand").casefold())


def _depth(members: tuple[Sowing, ...]) -> Compromise | None:
    seeds = [each.seed for each in members if each.seed is not None]
    unimportant = [each.of.name for each in members if not each.important]
    if not any(seed.depth for seed in seeds if seed.name not in unimportant):
        return None
    return compromise(seeds, unimportant=unimportant)
