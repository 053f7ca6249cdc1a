"""What a mix says of itself: the one sentence, and what is worth knowing beside it."""

from collections.abc import Sequence
from math import fsum

from ..quantities.phrases import Phrase, cause, say
from ..quantities.units import COST, DENSITY, RATE, SHARE
from ..statistics.budget import Estimate, Quantity, Share, nominal
from .totals import MixPart, Sown

FAR_APART = 2.0  # share by weight ÷ share by seed, from which it is worth saying
WORTH_SAYING = 0.02  # half a 95 % range below which nobody asks


def listed(phrases: Sequence[Phrase]) -> Phrase:
    """Put phrases behind each other with commas between them."""
    names = [f"s{i}" for i in range(len(phrases))]
    values = dict(zip(names, phrases, strict=True))
    return Phrase(", ".join(f"{{{name}}}" for name in names), values)


def advice(
    sown: Sequence[Sown],
    *,
    bulk: Quantity,
    seeds: Quantity,
    cost: Quantity | None,
    live: Estimate,
    reasons: Sequence[Share],
) -> tuple[Phrase, ...]:
    """Say what to sow, how many live seeds that is, and how sure that is.

    Parameters
    ----------
    bulk, seeds, cost : Quantity
        Of all together; no cost where a price is missing.
    live : Estimate
        Of the live seeds.
    reasons : sequence of Share
        Budget of the live seeds, largest first.
    """
    parts = listed([_part(each) for each in sown])
    said = [say("Seed {bulk}: {parts}.", bulk=RATE(nominal(bulk)), parts=parts)]
    density = DENSITY(nominal(seeds))
    if cost is None:
        said.append(say("That's {seeds} live.", seeds=density))
    else:
        money = COST(nominal(cost))
        said.append(say("That's {seeds} live, at {cost}.", seeds=density, cost=money))
    return (*said, *_range(live, reasons))


def _part(each: Sown) -> Phrase:
    rate = RATE(nominal(each.bulk_rate))
    if each.lot:
        return say("{name} ({lot}) {rate}", name=each.name, lot=each.lot, rate=rate)
    return say("{name} {rate}", name=each.name, rate=rate)


def _range(live: Estimate, reasons: Sequence[Share]) -> tuple[Phrase, ...]:
    reach = (live.high - live.low) / 2 / live.value
    if reach < WORTH_SAYING:
        return ()
    text = say(
        "Live seeds are good to about ± {reach}; most of the uncertainty is {cause}.",
        reach=SHARE(reach, 2),
        cause=cause(reasons[0].name),
    )
    return (text,)


def notes(sown: Sequence[Sown], seasons: Sequence[MixPart], *, uplift: float) -> tuple[Phrase, ...]:
    """Say what is worth knowing of a mix and asks for nothing.

    Parameters
    ----------
    uplift : float
        More seed for broadcasting, as a share. [-]
    """
    return (
        *_broadcast(uplift),
        *_lots(sown),
        *(note for each in sown for note in _far_apart(each)),
        *_two_seasons(seasons),
    )


def _broadcast(uplift: float) -> tuple[Phrase, ...]:
    if not uplift:
        return ()
    more = SHARE(uplift)
    return (
        say(
            "All seed rates are {more} above drilled rates, because the seed is broadcast",
            more=more,
        ),
    )


def _lots(sown: Sequence[Sown]) -> tuple[Phrase, ...]:
    """Say how lots of one species share it."""
    by_name: dict[str, list[Sown]] = {}
    for each in sown:
        if each.seed:
            by_name.setdefault(each.name, []).append(each)
    return tuple(_shared(name, lots) for name, lots in by_name.items() if len(lots) > 1)


def _shared(name: str, lots: Sequence[Sown]) -> Phrase:
    whole = fsum(nominal(each.seed_share) for each in lots)
    parts = [
        say(
            "{share} from {lot}",
            share=SHARE(nominal(each.seed_share) / whole),
            lot=each.lot or say("lot {number}", number=i + 1),
        )
        for i, each in enumerate(lots)
    ]
    return say(
        "{name} comes from {n} lots; share of its live seeds: {parts}",
        name=name,
        n=len(lots),
        parts=listed(parts),
    )


def _far_apart(each: Sown) -> tuple[Phrase, ...]:
    by_seed, by_weight = nominal(each.seed_share), nominal(each.weight_share)
    if not by_seed or 1 / FAR_APART < by_weight / by_seed < FAR_APART:
        return ()
    text = say(
        "{name} is {weight} of the weight but {seed} of the seeds",
        name=each.name,
        weight=SHARE(by_weight),
        seed=SHARE(by_seed),
    )
    return (text,)


def _two_seasons(seasons: Sequence[MixPart]) -> tuple[Phrase, ...]:
    if len(seasons) < 2:
        return ()
    shares = {part.name: SHARE(nominal(part.seed_share)) for part in seasons}
    text = say(
        "Cool-season seed ({cool} of the seeds) and warm-season seed ({warm}) "
        "share one seeding date: make sure it suits both",
        **shares,
    )
    return (text,)
