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
    name: Annotated[Name, say("Name")]
    area: Annotated[Typed | None, u.FIELD, say("Area")] = None
    state: Annotated[Text, say("State")] = ""
    note: Annotated[Text, say("Note")] = ""
    outline: Annotated[OutlineText, say("Boundary")] = ""


class Wanted(Part, frozen=True):
    """The rate wanted from a box [kg/m²], and how far off it may be [-].

    ``seed`` is what is sown from it, ``test_weight`` that seed's [kg/m³],
    ``chart`` the chart of the drill to begin from.
    """

    rate: Annotated[Typed, u.RATE, say("Target rate")]
    box: Annotated[Text, say("Box")] = ""
    seed: Annotated[Text, say("Seed")] = ""
    test_weight: Annotated[Typed | None, u.TEST_WEIGHT, AS_IT_STANDS, say("Test weight")] = None
    chart: Annotated[Id | None, say("Chart")] = None
    tolerance: Annotated[Typed | None, u.SHARE, say("Tolerance")] = None
    on: Annotated[Literal["field", "static"], say("Rate basis")] = "field"
    gear: Annotated[Text, say("Gear")] = ""
    dearer: Annotated[Literal["thin stand", "wasted seed", "neither"], say("Costlier mistake")] = (
        "neither"
    )


class Job(Body, frozen=True):
    """One field, one mix, one drill, one season.

    ``field_ratio`` is a share; ``resolution`` and ``scale_tolerance`` are
    those of the weighing scale. [kg]
    """

    kind: ClassVar = "job"
    name: Annotated[Name, say("Name")]
    season: Annotated[Text, say("Season")] = ""
    field: Annotated[Id | None, say("Field")] = None
    drill: Annotated[Id | None, say("Drill")] = None
    mix: Annotated[Id | None, say("Mix")] = None
    wanted: Annotated[tuple[Wanted, ...], say("Target rates")] = ()
    blocked: Annotated[Count, u.ROWS, say("Blocked rows")] = 0
    blocked_end: Annotated[Count, u.ROWS, say("Blocked end rows")] = 0
    rolled: Annotated[Typed | None, u.TRAVEL, say("Distance per wheel turn, rolled")] = None
    taped: Annotated[Typed | None, u.TRAVEL, say("Wheel circumference, taped")] = None
    slip: Annotated[Typed | None, u.SHARE, OR_ZERO, say("Wheel slip")] = None
    field_ratio: Annotated[Typed | None, BY_SIGN, say("Field ratio")] = None
    speed: Annotated[Typed | None, u.SPEED, AS_IT_STANDS, say("Speed")] = None
    resolution: Annotated[Typed | None, u.SCALE_STEP, AS_IT_STANDS, say("Scale step")] = None
    scale_tolerance: Annotated[Typed | None, u.SCALE_STEP, OR_ZERO, say("Scale error")] = None
    note: Annotated[Text, say("Note")] = ""


class InBox(Part, frozen=True):
    """Which members of the mix go into a box, by name, and what is mixed in with them [kg/m²].

    ``carrier_bag`` is the bag that is sold in [kg], ``carrier_price`` what one
    costs. ``test_weight`` is that of the mixture [kg/m³]; where it was found with a
    sample, ``sample`` [kg] filled ``measure`` [m³]. ``full`` is how high the
    box is filled, a share.
    """

    box: Annotated[Name, say("Box")]
    members: Annotated[tuple[Name, ...], say("Seed in the box")]
    carrier: Annotated[Text, say("Carrier")] = ""
    carrier_rate: Annotated[Typed | None, u.RATE, say("Carrier rate")] = None
    carrier_bag: Annotated[Typed | None, u.LOAD, AS_IT_STANDS, say("Carrier bag")] = None
    carrier_price: Annotated[
        Typed | None, u.MONEY, OR_ZERO, AS_IT_STANDS, say("Price of a carrier bag")
    ] = None
    test_weight: Annotated[Typed | None, u.TEST_WEIGHT, say("Test weight")] = None
    measure: Annotated[Typed | None, u.VOLUME, say("Container volume")] = None
    sample: Annotated[Typed | None, u.CATCH, say("Sample weight")] = None
    full: Annotated[Typed | None, u.SHARE, say("Filled to")] = None


class Split(Body, frozen=True):
    """The mix of a job shared out among the boxes."""

    kind: ClassVar = "split"
    job: Annotated[Id, say("Job")]
    boxes: Annotated[tuple[InBox, ...], say("Boxes")]
    note: Annotated[Text, say("Note")] = ""


class OfBox(Part, frozen=True):
    """Seed of one box [kg]."""

    box: Annotated[Name, say("Box")]
    weight: Annotated[Typed, u.LOAD, OR_ZERO, say("Weight")]


class Inoculant(Part, frozen=True):
    """What stands on the label of an inoculant: so much of it for so much seed [kg].

    ``pack`` is what a pack holds [kg], ``within`` the time from inoculating to
    sowing [s].
    """

    species: Annotated[Name, say("Species")]
    amount: Annotated[Typed, u.LOAD, say("Inoculant amount")]
    seed: Annotated[Typed, u.LOAD, say("Seed it treats")]
    name: Annotated[Text, say("Name")] = ""
    pack: Annotated[Typed | None, u.LOAD, say("Package size")] = None
    within: Annotated[Typed | None, u.HOURS, say("Seed within")] = None


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
    job: Annotated[Id, say("Job")]
    area: Annotated[Typed | None, u.FIELD, say("Area to seed")] = None
    pass_length: Annotated[Typed | None, u.LENGTH, say("Pass length")] = None
    overlap: Annotated[Typed | None, u.SHARE, OR_ZERO, say("Overlap")] = None
    heels: Annotated[tuple[OfBox, ...], say("Seed left in the boxes")] = ()
    catches: Annotated[tuple[OfBox, ...], say("Seed caught")] = ()
    sure: Annotated[Share | None, ODDS, say("Odds of enough seed")] = None
    spread: Annotated[Typed | None, u.SHARE, OR_ZERO, say("Variation in rate")] = None
    batch: Annotated[Typed | None, u.LOAD, say("Batch size")] = None
    speed: Annotated[Typed | None, u.SPEED, say("Speed")] = None
    efficiency: Annotated[Typed | None, u.SHARE, say("Field efficiency")] = None
    refill: Annotated[Typed | None, u.MINUTES, say("Refill time")] = None
    inoculants: Annotated[tuple[Inoculant, ...], say("Inoculants")] = ()
    note: Annotated[Text, say("Note")] = ""


class Bag(Part, frozen=True):
    """Net seed from one row or from neighbors together [kg].

    ``row`` is the number of the first, from the left; 0 where it is not known.
    """

    weight: Annotated[Typed, u.CATCH, OR_ZERO, say("Weight")]
    rows: Annotated[Some, say("Rows")] = 1
    row: Annotated[Count, say("Row")] = 0


class Catch(Body, frozen=True):
    """One catch: where the lever stood, what was turned or driven, what the bags held.

    One of ``turns`` [turn], ``crank_turns`` [turn], ``distance`` [m], ``area``
    [m²]. ``per_turn`` is ground for one crank turn [m], ``crank_per_wheel``
    crank turns for one of the wheel. ``counted``: it counts though a row in it stopped.
    """

    kind: ClassVar = "catch"
    job: Annotated[Id, say("Job")]
    setting: Annotated[float, say("Setting")]
    bags: Annotated[tuple[Bag, ...], say("Seed caught")]
    drill: Annotated[Id | None, say("Drill")] = None
    box: Annotated[Text, say("Box")] = ""
    gear: Annotated[Text, say("Gear")] = ""
    turns: Annotated[Typed | None, u.TURNS, say("Wheel turns")] = None
    crank_turns: Annotated[Typed | None, u.TURNS, say("Crank turns")] = None
    crank_per_wheel: Annotated[Typed | None, u.NUMBER, say("Crank turns per wheel turn")] = None
    per_turn: Annotated[Typed | None, u.TRAVEL, say("Distance per crank turn")] = None
    distance: Annotated[Typed | None, u.LENGTH, say("Distance")] = None
    area: Annotated[Typed | None, u.FIELD, say("Area")] = None
    gross: Annotated[Typed | None, u.CATCH, say("Weight with container")] = None
    tare: Annotated[Typed | None, u.CATCH, OR_ZERO, say("Container weight")] = None
    resolution: Annotated[Typed | None, u.SCALE_STEP, say("Scale step")] = None
    counted: Annotated[bool, say("Counts anyway")] = False
    note: Annotated[Text, say("Note")] = ""


class Chosen(Body, frozen=True):
    """The setting that was taken for a box, and how sure one was of it."""

    kind: ClassVar = "setting"
    job: Annotated[Id, say("Job")]
    setting: Annotated[float, say("Setting")]
    drill: Annotated[Id | None, say("Drill")] = None
    box: Annotated[Text, say("Box")] = ""
    gear: Annotated[Text, say("Gear")] = ""
    odds: Annotated[Share | None, say("Odds")] = None
    accepted: Annotated[bool, say("Accepted")] = True
    note: Annotated[Text, say("Note")] = ""


class Seen(Part, frozen=True):
    """Plants counted of one species; of all where none is named."""

    plants: Annotated[Count, say("Plants")]
    species: Annotated[Text, say("Species")] = ""


class Place(Part, frozen=True):
    """A place that was looked at, and the plants in it.

    One of ``length`` of row [m], ``hoop`` across it [m], ``around`` it [m],
    both ``sides`` of a frame [m], ``area`` [m²]. ``gaps`` are lengths of row
    without a plant [m]; ``looked`` says that gaps were looked for.
    """

    plants: Annotated[tuple[Seen, ...], say("Plants")]
    length: Annotated[Typed | None, u.LENGTH, say("Row length")] = None
    hoop: Annotated[Typed | None, u.SPACING, say("Hoop width")] = None
    around: Annotated[Typed | None, u.SPACING, say("Hoop circumference")] = None
    sides: Annotated[tuple[Typed, ...], u.LENGTH, say("Frame sides")] = ()
    area: Annotated[Typed | None, u.GROUND, say("Area")] = None
    gaps: Annotated[tuple[Typed, ...], u.SPACING, say("Gaps")] = ()
    looked: Annotated[bool, say("Gaps checked")] = False


class StandCount(Body, frozen=True):
    """What came up: places counted on one day; ``spacing`` of the rows [m]."""

    kind: ClassVar = "count"
    job: Annotated[Id, say("Job")]
    places: Annotated[tuple[Place, ...], say("Spots")]
    day: Annotated[Day | None, say("Date")] = None
    spacing: Annotated[Typed | None, u.SPACING, say("Row spacing")] = None
    note: Annotated[Text, say("Note")] = ""


class Live(Part, frozen=True):
    """Live seeds of a species that went on the ground [1/m²], and what kind of seed it is.

    ``species`` is empty for all seed of a job; ``usual`` names the kind whose
    usual emergence is looked for.
    """

    species: Annotated[Text, say("Species")] = ""
    seeds: Annotated[Typed | None, u.DENSITY, say("Live seed")] = None
    usual: Annotated[Text, say("Seed type")] = ""


class StandWish(Body, frozen=True):
    """What a stand is judged by: plants wished for [1/m²], the crop, when and what was sown.

    What stands in ``live`` goes before what the steps of the job know.
    """

    kind: ClassVar = "stand wish"
    job: Annotated[Id, say("Job")]
    wish: Annotated[Typed | None, u.PLANTS, AS_IT_STANDS, say("Stand goal")] = None
    crop: Annotated[Text, say("Crop")] = ""
    sown: Annotated[Day | None, say("Seeding date")] = None
    perennial: Annotated[bool, say("Perennial")] = False
    irrigated: Annotated[bool, say("Irrigated")] = False
    live: Annotated[tuple[Live, ...], say("Live seed")] = ()
    note: Annotated[Text, say("Note")] = ""


class Used(Part, frozen=True):
    """Seed of one box: what was filled in, what was left in it at the end [kg].

    ``box`` is empty where the job names none.
    """

    box: Annotated[Text, say("Box")] = ""
    loaded: Annotated[Typed | None, u.LOAD, OR_ZERO, say("Seed loaded")] = None
    left: Annotated[Typed | None, u.LOAD, OR_ZERO, say("Seed left")] = None


class Record(Body, frozen=True):
    """What a record says beyond the steps: who, when, on what ground, how deep.

    ``area`` is what was sown [m²]; ``depth`` how deep the seed lies [m].
    ``signers`` are those who sign it.
    """

    kind: ClassVar = "record"
    job: Annotated[Id, say("Job")]
    producer: Annotated[Text, say("Producer")] = ""
    farm: Annotated[Text, say("Farm")] = ""
    tract: Annotated[Text, say("Tract")] = ""
    practice: Annotated[Text, say("Practice")] = ""
    sown_by: Annotated[Text, say("Operator")] = ""
    first: Annotated[Day | None, say("First day")] = None
    last: Annotated[Day | None, say("Last day")] = None
    area: Annotated[Typed | None, u.FIELD, say("Area seeded")] = None
    depth: Annotated[Typed | None, u.SPACING, OR_ZERO, say("Seeding depth")] = None
    method: Annotated[Text, say("Method")] = ""
    seedbed: Annotated[Text, say("Seedbed")] = ""
    soil: Annotated[Text, say("Soil")] = ""
    fertility: Annotated[Text, say("Fertility")] = ""
    inoculant: Annotated[Text, say("Inoculant")] = ""
    termination: Annotated[Text, say("Termination")] = ""
    used: Annotated[tuple[Used, ...], say("Seed used")] = ()
    signers: Annotated[tuple[Name, ...], say("Signatures")] = ()
    note: Annotated[Text, say("Note")] = ""


class Note(Body, frozen=True):
    """Words about a thing."""

    kind: ClassVar = "note"
    of: Annotated[Id, say("About")]
    text: Annotated[Text, say("Note")]
