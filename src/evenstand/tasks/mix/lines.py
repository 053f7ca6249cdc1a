"""The members of a mix as lines of a table: every basis with its range."""

from collections.abc import Sequence
from dataclasses import dataclass
from string import ascii_uppercase

from evenstand.book.kinds.seed import Member
from evenstand.engine.mix.totals import Mix, Sown
from evenstand.engine.statistics.budget import Estimate, Quantity

from .mix import Mixed


@dataclass(frozen=True, kw_only=True)
class MixLine:
    """One member, or all together, on every basis; what is not known is None.

    ``lot_id`` is the thing the seed comes from, None where it has none.
    """

    letter: str
    name: str
    lot: str
    lot_id: str | None
    is_carrier: bool
    seeds: Estimate
    pls: Estimate
    bulk: Estimate
    of_full: Estimate | None
    seed_share: Estimate | None
    weight_share: Estimate | None
    cost: Estimate | None


def letters(mix: Mix) -> str:
    """Return a letter for each member, from the beginning again behind the last one."""
    return "".join(ascii_uppercase[i % len(ascii_uppercase)] for i in range(len(mix.sown)))


def mix_lines(found: Mixed, kept: Sequence[Member]) -> tuple[MixLine, ...]:
    """Lay out every member.

    Parameters
    ----------
    kept : sequence of Member
        Those that were read, as they stand in the book.
    """
    rows = zip(letters(found.mix), found.mix.sown, kept, strict=True)
    return tuple(_line(letter, each, member.lot) for letter, each, member in rows)


def _line(letter: str, each: Sown, lot_id: str | None) -> MixLine:
    def ranged(quantity: Quantity | None) -> Estimate | None:
        return None if quantity is None else each.range_of(quantity)

    return MixLine(
        letter=letter,
        name=each.name,
        lot=each.lot,
        lot_id=lot_id,
        is_carrier=each.seed is None,
        seeds=each.range_of(each.seeds),
        pls=each.range_of(each.pls_rate),
        bulk=each.range_of(each.bulk_rate),
        of_full=ranged(each.of_full),
        seed_share=ranged(each.seed_share),
        weight_share=ranged(each.weight_share),
        cost=ranged(each.cost),
    )


def mix_total(mix: Mix) -> MixLine:
    """Lay out all members together."""
    return MixLine(
        letter="",
        name="",
        lot="",
        lot_id=None,
        is_carrier=False,
        seeds=mix.range_of(mix.seeds),
        pls=mix.range_of(mix.rates.pls),
        bulk=mix.range_of(mix.bulk_rate),
        of_full=None,
        seed_share=None,
        weight_share=None,
        cost=None if mix.cost is None else mix.range_of(mix.cost),
    )
