"""Kept counts of plants as places that the engine judges."""

from collections.abc import Sequence

from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.work import Place as KeptPlace
from evenstand.book.kinds.work import StandCount
from evenstand.engine.quantities.errors import MeasurementError, Path
from evenstand.engine.quantities.phrases import say
from evenstand.engine.stand.place import Place, frame_area, hoop_area, row_area
from evenstand.engine.stand.stand import stands
from evenstand.engine.statistics.budget import Quantity, give_or_take


def places_of(counts: Sequence[StandCount], *, spacing: Quantity | None) -> tuple[Place, ...]:
    """Return all places of kept counts, in their order.

    Parameters
    ----------
    spacing : Quantity or None
        Of the drill's rows, where a count has none of its own: the same spacing
        is unsure once for all that were counted with it. [m]

    Raises
    ------
    MeasurementError
        Where a place has no size, or two, or a length of row no spacing.
    """
    own = {each.spacing: _quantity(each.spacing, "row spacing") for each in counts}
    return tuple(
        _place(place, own[count.spacing] or spacing) for count in counts for place in count.places
    )


def check_count(count: StandCount, *, spacing: Quantity | None) -> None:
    """See that a count can be judged.

    Parameters
    ----------
    spacing : Quantity or None
        Of the drill's rows. [m]

    Raises
    ------
    MeasurementError
        For no places, a place of no size or of two, or what `places_of` refuses.
    """
    if not count.places:
        raise MeasurementError("places", (), say("count the plants in at least one spot"))
    for place in count.places:
        names = [seen.species for seen in place.plants]
        if len(set(names)) < len(names):
            raise MeasurementError(Path("places", "plants"), names, say("enter each only once"))
    stands(places_of([count], spacing=spacing))


def _place(kept: KeptPlace, spacing: Quantity | None) -> Place:
    looked = kept.length is not None and (kept.looked or bool(kept.gaps))
    return Place(
        area=_area(kept, spacing),
        plants={each.species: each.plants for each in kept.plants},
        row=kept.length.value if looked and kept.length else None,
        gaps=tuple(gap.value for gap in kept.gaps),
    )


def _area(kept: KeptPlace, spacing: Quantity | None) -> Quantity:
    sizes = [kept.length, kept.hoop, kept.around, kept.area, *kept.sides[:1]]
    if sum(size is not None for size in sizes) != 1:
        need = say("enter one size: row length, hoop, around, frame or area")
        raise MeasurementError(Path("places", "length"), None, need)
    if kept.length is not None:
        if spacing is None:
            raise MeasurementError("spacing", None, say("enter the row spacing"))
        return row_area(kept.length.value, spacing=spacing)
    if kept.hoop is not None or kept.around is not None:
        return hoop_area(
            diameter=_quantity(kept.hoop, "hoop"), around=_quantity(kept.around, "hoop")
        )
    if kept.area is not None:
        return kept.area.value
    if len(kept.sides) != 2:
        raise MeasurementError(
            Path("places", "sides"), None, say("enter both sides, such as 50; 50 cm")
        )
    return frame_area(kept.sides[0].value, b=kept.sides[1].value)


def _quantity(typed: Typed | None, tag: str) -> Quantity | None:
    return None if typed is None else give_or_take(typed.value, typed.give_or_take, tag)
