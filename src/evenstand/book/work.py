"""What is done and said on a job, as it is kept."""

from typing import Annotated, ClassVar, Literal

from msgspec import Meta

from evenstand.engine.quantities import units as u
from evenstand.engine.quantities.phrases import say

from .details import AS_IT_STANDS, BY_SIGN, OR_ZERO, Within
from .shape import Body, Count, Day, Id, Name, Part, Share, Some, Text, Typed

OutlineText = Annotated[str, Meta(max_length=200_000)]
ODDS = Within(0.5, 1, say("enter odds from 50% to below 100%"))


class Field(Body, frozen=True):
    """A field: area [m²]; its state, for how long a tag is good.

    ``outline`` is its edge on the map, the geometry of GeoJSON (RFC 7946) as text.
    """

    kind: ClassVar = "field"
    name: Name
    area: Annotated[Typed | None, u.FIELD] = None
    state: Text = ""
    note: Text = ""
    outline: OutlineText = ""


class Wanted(Part, frozen=True):
    """The rate wanted from a box [kg/m²], and how far off it may be [-].

    ``seed`` is what is sown from it, ``test_weight`` that seed's [kg/m³],
    ``chart`` the chart of the drill to begin from.
    """

    rate: Annotated[Typed, u.RATE]
    box: Text = ""
    seed: Text = ""
    test_weight: Annotated[Typed | None, u.TEST_WEIGHT] = None
    chart: Id | None = None
    tolerance: Annotated[Typed | None, u.SHARE] = None
    on: Literal["field", "static"] = "field"
    gear: Text = ""
    dearer: Literal["thin stand", "wasted seed", "neither"] = "neither"


class Job(Body, frozen=True):
    """One field, one mix, one drill, one season.

    ``field_ratio`` is a share; ``resolution`` and ``scale_tolerance`` are
    those of the weighing scale. [kg]
    """

    kind: ClassVar = "job"
    name: Name
    season: Text = ""
    field: Id | None = None
    drill: Id | None = None
    mix: Id | None = None
    wanted: tuple[Wanted, ...] = ()
    blocked: Annotated[Count, u.ROWS] = 0
    blocked_end: Annotated[Count, u.ROWS] = 0
    rolled: Annotated[Typed | None, u.TRAVEL] = None
    taped: Annotated[Typed | None, u.TRAVEL] = None
    slip: Annotated[Typed | None, u.SHARE, OR_ZERO] = None
    field_ratio: Annotated[Typed | None, BY_SIGN] = None
    speed: Annotated[Typed | None, u.SPEED] = None
    resolution: Annotated[Typed | None, u.SCALE_STEP] = None
    scale_tolerance: Annotated[Typed | None, u.SCALE_STEP, OR_ZERO] = None
    note: Text = ""


class InBox(Part, frozen=True):
    """Which members of the mix go into a box, by name, and what is mixed in with them [kg/m²].

    ``test_weight`` is that of the mixture [kg/m³]; where it was found with a
    sample, ``sample`` [kg] filled ``measure`` [m³]. ``full`` is how high the
    box is filled, a share.
    """

    box: Name
    members: tuple[Name, ...]
    carrier: Text = ""
    carrier_rate: Annotated[Typed | None, u.RATE] = None
    test_weight: Annotated[Typed | None, u.TEST_WEIGHT] = None
    measure: Annotated[Typed | None, u.VOLUME] = None
    sample: Annotated[Typed | None, u.CATCH] = None
    full: Annotated[Typed | None, u.SHARE] = None


class Split(Body, frozen=True):
    """The mix of a job shared out among the boxes."""

    kind: ClassVar = "split"
    job: Id
    boxes: tuple[InBox, ...]
    note: Text = ""


class OfBox(Part, frozen=True):
    """Seed of one box [kg]."""

    box: Name
    weight: Annotated[Typed, u.LOAD, OR_ZERO]


class Inoculant(Part, frozen=True):
    """What stands on the label of an inoculant: so much of it for so much seed [kg].

    ``pack`` is what a pack holds [kg], ``within`` the time from inoculating to
    sowing [s].
    """

    species: Name
    amount: Annotated[Typed, u.LOAD]
    seed: Annotated[Typed, u.LOAD]
    name: Text = ""
    pack: Annotated[Typed | None, u.LOAD] = None
    within: Annotated[Typed | None, u.HOURS] = None


class Order(Body, frozen=True):
    """What a job needs beyond rate × area.

    ``area`` is what is sown where it is not the whole field [m²], one pass is
    ``pass_length`` long [m], ``overlap`` is a share; ``heels`` stay in the
    boxes, ``catches`` do not go back into them. ``sure`` are the odds that the
    seed is to suffice with, ``spread`` how far off a box may lay down its rate
    (standard) [-], ``batch`` what is mixed at once [kg]. ``speed`` [m/s],
    ``efficiency`` [-] and ``refill``, the time that a stop takes [s], tell the
    time at the drill.
    """

    kind: ClassVar = "order"
    job: Id
    area: Annotated[Typed | None, u.FIELD] = None
    pass_length: Annotated[Typed | None, u.LENGTH] = None
    overlap: Annotated[Typed | None, u.SHARE, OR_ZERO] = None
    heels: tuple[OfBox, ...] = ()
    catches: tuple[OfBox, ...] = ()
    sure: Annotated[Share | None, ODDS] = None
    spread: Annotated[Typed | None, u.SHARE, OR_ZERO] = None
    batch: Annotated[Typed | None, u.LOAD] = None
    speed: Annotated[Typed | None, u.SPEED] = None
    efficiency: Annotated[Typed | None, u.SHARE] = None
    refill: Annotated[Typed | None, u.MINUTES] = None
    inoculants: tuple[Inoculant, ...] = ()
    note: Text = ""


class Bag(Part, frozen=True):
    """Net seed from one row or from some together [kg]; ``row`` counts from the left."""

    weight: Annotated[Typed, u.CATCH, OR_ZERO]
    rows: Some = 1
    row: Count = 0


class Catch(Body, frozen=True):
    """One catch: where the lever stood, what was turned or driven, what the bags held.

    One of ``turns`` [turn], ``crank_turns`` [turn], ``distance`` [m], ``area``
    [m²]. ``per_turn`` is ground for one crank turn [m], ``crank_per_wheel``
    crank turns for one of the wheel.
    """

    kind: ClassVar = "catch"
    job: Id
    setting: float
    bags: tuple[Bag, ...]
    drill: Id | None = None
    box: Text = ""
    gear: Text = ""
    turns: Annotated[Typed | None, u.TURNS] = None
    crank_turns: Annotated[Typed | None, u.TURNS] = None
    crank_per_wheel: Annotated[Typed | None, u.NUMBER] = None
    per_turn: Annotated[Typed | None, u.TRAVEL] = None
    distance: Annotated[Typed | None, u.LENGTH] = None
    area: Annotated[Typed | None, u.FIELD] = None
    gross: Annotated[Typed | None, u.CATCH] = None
    tare: Annotated[Typed | None, u.CATCH, OR_ZERO] = None
    resolution: Annotated[Typed | None, u.SCALE_STEP] = None
    note: Text = ""


class Chosen(Body, frozen=True):
    """The setting that was taken for a box, and how sure one was of it."""

    kind: ClassVar = "setting"
    job: Id
    setting: float
    drill: Id | None = None
    box: Text = ""
    gear: Text = ""
    odds: Share | None = None
    accepted: bool = True
    note: Text = ""


class Seen(Part, frozen=True):
    """Plants counted of one species; of all where none is named."""

    plants: Count
    species: Text = ""


class Place(Part, frozen=True):
    """A place that was looked at, and the plants in it.

    One of ``length`` of row [m], ``hoop`` across it [m], ``around`` it [m],
    both ``sides`` of a frame [m], ``area`` [m²]. ``gaps`` are lengths of row
    without a plant [m]; ``looked`` says that gaps were looked for.
    """

    plants: tuple[Seen, ...]
    length: Annotated[Typed | None, u.LENGTH] = None
    hoop: Annotated[Typed | None, u.SPACING] = None
    around: Annotated[Typed | None, u.SPACING] = None
    sides: Annotated[tuple[Typed, ...], u.LENGTH] = ()
    area: Annotated[Typed | None, u.GROUND] = None
    gaps: Annotated[tuple[Typed, ...], u.SPACING] = ()
    looked: bool = False


class StandCount(Body, frozen=True):
    """What came up: places counted on one day; ``spacing`` of the rows [m]."""

    kind: ClassVar = "count"
    job: Id
    places: tuple[Place, ...]
    day: Day | None = None
    spacing: Annotated[Typed | None, u.SPACING] = None
    note: Text = ""


class Live(Part, frozen=True):
    """Live seeds of a species that went on the ground [1/m²], and what kind of seed it is.

    ``species`` is empty for all seed of a job; ``usual`` names the kind whose
    usual emergence is looked for.
    """

    species: Text = ""
    seeds: Annotated[Typed | None, u.DENSITY] = None
    usual: Text = ""


class StandWish(Body, frozen=True):
    """What a stand is judged by: plants wished for [1/m²], the crop, when and what was sown.

    What stands in ``live`` goes before what the steps of the job know.
    """

    kind: ClassVar = "stand wish"
    job: Id
    wish: Annotated[Typed | None, u.PLANTS, AS_IT_STANDS] = None
    crop: Text = ""
    sown: Day | None = None
    perennial: bool = False
    irrigated: bool = False
    live: tuple[Live, ...] = ()
    note: Text = ""


class Used(Part, frozen=True):
    """Seed of one box: what was filled in, what was left in it at the end [kg].

    ``box`` is empty where the job names none.
    """

    box: Text = ""
    loaded: Annotated[Typed | None, u.LOAD, OR_ZERO] = None
    left: Annotated[Typed | None, u.LOAD, OR_ZERO] = None


class Record(Body, frozen=True):
    """What a record says beyond the steps: who, when, on what ground, how deep.

    ``area`` is what was sown [m²]; ``depth`` how deep the seed lies [m].
    ``signers`` are those who sign it.
    """

    kind: ClassVar = "record"
    job: Id
    producer: Text = ""
    farm: Text = ""
    tract: Text = ""
    practice: Text = ""
    sown_by: Text = ""
    first: Day | None = None
    last: Day | None = None
    area: Annotated[Typed | None, u.FIELD] = None
    depth: Annotated[Typed | None, u.SPACING, OR_ZERO] = None
    method: Text = ""
    seedbed: Text = ""
    soil: Text = ""
    fertility: Text = ""
    inoculant: Text = ""
    termination: Text = ""
    used: tuple[Used, ...] = ()
    signers: tuple[Name, ...] = ()
    note: Text = ""


class Note(Body, frozen=True):
    """Words about a thing."""

    kind: ClassVar = "note"
    of: Id
    text: Text
