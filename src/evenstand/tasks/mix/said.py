"""What is said of a mix, in the book or in a job file."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from evenstand.book.kinds.details import BASES
from evenstand.book.kinds.seed import Member, Mix
from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.work import Field
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import TEST_WEIGHT

from ..job.tables import InTables, JobTable, many, one
from ..parsing.given import Given
from ..parsing.keys import COUNTS, TAG
from ..parsing.reading import only_one
from ..parsing.structs import read, texts
from ..parsing.writing import Writing
from ..seed.bags import bags_in
from ..seed.lots import lot_named, lot_of_species, species_of, species_or_own
from ..seed.said import LotSaid, lot_in, lots_in

# By the basis of an amount: the key that it has in a job file.
KEYS = {
    "of full rate": "share",
    "live seeds": "seeds",
    "pls": "pls",
    "bulk": "bulk",
    "rest": "rest",
}
_BASES = {key: basis for basis, key in KEYS.items()}
INLINE = ("purity", "germination")  # a member with either of them is a lot of its own


@dataclass(frozen=True, kw_only=True)
class MemberSaid:
    """A member of a mix with its lot, and where its inputs stand.

    A seed without ``lot`` is that of the only lot of its species. ``box`` is
    where its user puts it, empty where nobody said.
    """

    given: Given = field(compare=False, repr=False)
    member: Member
    lot: LotSaid | None = None
    box: str = ""


@dataclass(frozen=True, kw_only=True)
class MixSaid:
    """A mix with its lots and the field it is for; of ``mix`` the members stand apart."""

    ground: Field
    lots: tuple[LotSaid, ...] = ()
    members: tuple[MemberSaid, ...] = ()
    mix: Mix

    @property
    def of_ground(self) -> Given:
        """Where the inputs of the field stand."""
        return Given(texts(self.ground), InTables("field").part)

    @property
    def of_mix(self) -> Given:
        """Where the inputs of all members together stand."""
        mix = self.mix
        written = texts(mix) | amount_text(KEYS[mix.whole_basis], mix.whole)
        return Given(written, InTables("mix_whole").part)


def amount_text(key: str, typed: Typed | None) -> dict[str, str]:
    """Return an amount as it was typed, under the key that its basis has."""
    return {key: typed.text} if typed else {}


def mix_in(file: Mapping[str, Any]) -> MixSaid:
    """Read what a job file says of its mix.

    Raises
    ------
    RefusalsError or MeasurementError
        Naming the field as ``[[mix]] 2 share``.
    """
    lots = lots_in(many(file, "lots"))
    with Writing(one(file, "field").given) as form:
        area = read(form, Field, name=form.text("name"))
    return MixSaid(
        ground=area,
        lots=lots,
        members=tuple(_member(table, lots) for table in many(file, "mix")),
        mix=_whole(one(file, "mix_whole").given),
    )


def _whole(given: Given) -> Mix:
    keys = tuple(KEYS.values())[:-1]
    basis, whole = "of full rate", None
    with Writing(given) as form:
        if any(key in given for key in keys):
            key = only_one(given, keys, say("enter the total that the rest fills up to"))
            basis = _BASES[key]
            whole = form.amount(key, BASES[basis], exact=True)
        return read(form, Mix, name="", whole=whole, whole_basis=basis)


def _member(table: JobTable, lots: Sequence[LotSaid]) -> MemberSaid:
    given, carrier = table.given, table.given.yes("carrier")
    for key in (*TAG, *COUNTS, "lot") if carrier else ():
        if key in given:
            raise given.refuse(key, say("leave it out: a carrier has no live seed"))
    lot = None if carrier else _lot(table, lots)
    with Writing(given) as form:
        weight = lot.lot.test_weight if lot else form.amount("test_weight", TEST_WEIGHT, exact=True)
        basis, rate = _rate(form, weight)
        full_basis, full = _full(form, weight)
        member = read(
            form,
            Member,
            name=form.text("name" if "name" in given and carrier else "species"),
            lot=None,
            basis=basis,
            rate=rate,
            full=full,
            full_basis=full_basis,
            carrier=carrier,
            test_weight=weight if carrier else None,
            bags=bags_in(table) if carrier else (),
        )
    return MemberSaid(given=given, member=member, lot=lot, box=form.text("box"))


def _lot(table: JobTable, lots: Sequence[LotSaid]) -> LotSaid:
    """Return the lot that a member names, or is itself."""
    given = table.given
    name, own = given.texts.get("species", "").strip(), given.yes("own_name")
    if "lot" not in given:
        if any(key in given for key in INLINE):
            return lot_in(table)
        return lot_of_species(lots, given, species_or_own(given, name, own=own)[1])
    for key in (*TAG, *COUNTS):
        if key in given:
            raise given.refuse(key, say("leave it out: the lot already has it"))
    lot = lot_named(lots, given, given.text("lot"))
    of = species_of(lot)[1]
    if name and species_or_own(given, name, own=own)[1] != of:
        raise given.refuse("species", say("that lot is {name}", name=of))
    return lot


def _rate(form: Writing, test_weight: Typed | None) -> tuple[str, Typed | None]:
    """Read the one rate with its basis, None where there is none."""
    given = form.given
    left_out = "rest" in given and not given.yes("rest")
    keys = [key for key in _BASES if key in given and not (key == "rest" and left_out)]
    if not keys:
        return "bulk", None
    basis = _BASES[only_one(given, tuple(keys), say("enter its rate"))]
    if basis == "rest":
        return basis, None
    weight = test_weight.value if test_weight and basis == "bulk" else None
    return basis, form.amount(KEYS[basis], BASES[basis], exact=True, test_weight=weight)


def _full(form: Writing, test_weight: Typed | None) -> tuple[str, Typed | None]:
    """Read the rate sown alone, with its basis."""
    given = form.given
    if "full_seeds" in given:
        if "full_rate" in given:
            raise given.refuse("full_seeds", say("leave it out, or leave out full_rate"))
        return "live seeds", form.amount("full_seeds", BASES["live seeds"], exact=True)
    if "full_basis" in given and "full_rate" not in given:
        raise given.refuse("full_basis", say("it goes with {p}", p=given.name("full_rate")))
    basis = given.one_of("full_basis", ("pls", "bulk")) if "full_basis" in given else "pls"
    weight = test_weight.value if test_weight else None
    return basis, form.amount("full_rate", BASES[basis], exact=True, test_weight=weight)
