"""The Mix step: what is to grow, on every basis, from its lots and members."""

from collections.abc import Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass
from functools import partial
from typing import Annotated

from evenstand.book.kinds.details import BASES
from evenstand.engine.mix.advice import compare_density
from evenstand.engine.mix.carbon import CarbonNitrogen
from evenstand.engine.mix.depth import Compromise, compromise
from evenstand.engine.mix.member import ALL_OF_IT, Whole
from evenstand.engine.mix.mix import design
from evenstand.engine.mix.totals import Mix
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import COST, SHARE, Kind
from evenstand.engine.quantities.working import Line
from evenstand.engine.quantities.written import ONCE, inside, put
from evenstand.engine.seed.tag import Month
from evenstand.engine.statistics.budget import nominal

from ..job.tables import InTables
from ..parsing.given import placing
from ..parsing.warned import Warned
from ..seed.lots import Shelf, read_shelf
from .cautions import Beware, beware
from .members import RATES, Sowing, read_member
from .residue import read_residue
from .said import KEYS, MixSaid


@dataclass(frozen=True, kw_only=True)
class Mixed:
    """A mix as designed, with all that is said of it.

    ``names`` is that of the field, where it was given; ``members`` stand in
    the order of ``mix.sown``. ``depth`` is None where no depth is known,
    ``carbon`` where no C:N was given.
    """

    KEYS = (
        *(put("species", "mix", "sown"), put("pls_rate", "mix", "ranges", "pls", within="total")),
        put("bulk_rate", "mix", "ranges", "bulk", within="total"),
        put("seeds", "mix", "ranges", "seeds", within="total"),
        *(put("cost", "mix", "cost", within="total"), "cost_unit"),
        *inside(("mix",), "say", "groups", "seasons"),
        *(put("depth", "depth", "depth"), put("carbon_nitrogen", "carbon", "range")),
        *(put("budget", "mix", "shares"), "notes", put("cautions", "cautions", "say"), "working"),
        *(put("taken_as", "assumed"), "warnings"),
    )

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


def read_mix(said: MixSaid, *, today: Month) -> Mixed:
    """Turn each member of a mix into rates on every basis.

    Parameters
    ----------
    today : Month
        For the age of tests.

    Raises
    ------
    MeasurementError
        Naming the field as ``[[mix]] 2 share``.
    """
    shelf = shelf_of(said, today=today)
    members = read_members(said, shelf)
    uplift = said.mix.uplift
    with in_mix(said, members):
        mix = design(
            [each.member for each in members],
            whole=read_whole(said),
            uplift=said.of_mix.plain("uplift", uplift, SHARE, zero=True) if uplift else 0.0,
        )
    return mixed(mix, members, shelf=shelf, said=said)


def shelf_of(said: MixSaid, *, today: Month) -> Shelf:
    """Read the lots of a mix, their tests as old as its field allows."""
    return read_shelf(said.lots, state=said.ground.state, of=said.of_ground, today=today)


def read_members(said: MixSaid, shelf: Shelf) -> tuple[Sowing, ...]:
    """Read all members.

    Raises
    ------
    MeasurementError
        For a mix without members, and whatever a member refuses.
    """
    if not said.members:
        need = say("missing: enter a [[mix]] table for each species in the mix")
        raise MeasurementError(InTables("mix"), None, need)
    return tuple(read_member(each, shelf) for each in said.members)


def mixed(mix: Mix, members: tuple[Sowing, ...], *, shelf: Shelf, said: MixSaid) -> Mixed:
    """Put beside a mix all that is said of it."""
    lots = list({id(each.lot): each.lot for each in members if each.lot is not None}.values())
    carbon, carbon_taken = read_residue(mix, members)
    return Mixed(
        names=(said.ground.name,) if said.ground.name else (),
        members=members,
        mix=mix,
        depth=_depth(members),
        carbon=carbon,
        beside=_beside(mix, said),
        cautions=beware(lots),
        assumed=(*(each for m in members for each in m.assumed), *carbon_taken),
        warnings=(
            *shelf.warnings,
            *(warned for lot in lots for warned in lot.warnings),
            *(Warned(InTables("mix"), each) for each in mix.warnings),
        ),
    )


def in_mix(said: MixSaid, members: Sequence[Sowing]) -> AbstractContextManager[None]:
    """Let what the engine refuses of ``mix 2 share`` be named where it stands."""
    return placing(partial(_placed, said, members))


def _placed(
    said: MixSaid, members: Sequence[Sowing], refused: MeasurementError
) -> MeasurementError:
    match refused.path:
        case ("mix", int(number), str(key)):
            given = members[number - 1].given
            at = given.texts.get(key, refused.given)
            return MeasurementError(given.path(key), at, refused.need)
        case ("uplift",):
            return said.of_mix.refuse("uplift", refused.need)
        case ("whole",):
            return said.of_mix.refuse(KEYS[said.mix.whole_basis], refused.need)
        case _:
            return refused.at(InTables("mix"))


def read_whole(said: MixSaid) -> Whole:
    """Return what the rest fills up: all of the full rates where nothing else was said."""
    basis, whole = said.mix.whole_basis, said.mix.whole
    if whole is None:
        return ALL_OF_IT
    return RATES[basis](said.of_mix.plain(KEYS[basis], whole, BASES[basis]))


def _beside(mix: Mix, said: MixSaid) -> tuple[Phrase, ...]:
    """Set the live seeds beside what is printed for the stand that is wanted."""
    if not said.mix.stand:
        return ()
    with said.of_mix.pointing():
        return compare_density(nominal(mix.seeds), stand=said.mix.stand.casefold())


def _depth(members: tuple[Sowing, ...]) -> Compromise | None:
    seeds = [each.seed for each in members if each.seed is not None]
    unimportant = [each.of.name for each in members if not each.said.member.important]
    if not any(seed.depth for seed in seeds if seed.name not in unimportant):
        return None
    return compromise(seeds, unimportant=unimportant)
