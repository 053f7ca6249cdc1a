"""A kept lot is read as the same lot written in a job file."""

import re
import tomllib
from importlib.resources import files

import pytest
from msgspec.structs import replace

import labels
from evenstand.book.kinds.seed import Dish, GerminationTest, Lot, Noxious, Sample, SeedCount, Tag
from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.work import Note
from evenstand.book.opening import open_book
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import GRAM, POUND
from evenstand.engine.seed.tag import Month
from evenstand.engine.statistics.budget import nominal
from evenstand.tasks.job.tables import InTables
from evenstand.tasks.mix.said import mix_in
from evenstand.tasks.parsing.given import Given
from evenstand.tasks.seed.form import read_lot_form
from evenstand.tasks.seed.kept import lots_said, read_kept, which_count
from evenstand.tasks.seed.lots import read_shelf

TODAY = Month(2026, 11)
RYE = Lot(
    species="cereal rye",
    name="R-26",
    tag=Tag(purity=0.98, germination=0.92, tested="2026-08"),
    seeds_per_kg=Typed(value=18_100 / POUND, text="18,100 seeds/lb"),
)


@pytest.fixture
def book():
    with open_book(":memory:", device="shed", who="Ada") as opened:
        yield opened


def typed_lots():
    """The lots of the invented demo, as its forms are filled in."""
    text = (files("evenstand.demo") / "book.toml").read_text(encoding="utf-8")
    return {lot["name"]: lot for lot in tomllib.loads(text)["lot"]}


def said(book, *things):
    return lots_said(book, things, lambda number: InTables("lots", number).part)


def on_shelf(lots, *, state="", today=TODAY):
    return read_shelf(lots, state=state, of=Given({}), today=today).lots


@pytest.mark.parametrize("demo", ["alder_bench", "teal"])
def test_the_lots_of_the_demo_book_are_those_of_its_job_files(book, demo):
    """Two routes to the same shelf: forms into the book, and a file as it is written."""
    text = (files("evenstand.demo") / f"{demo}.toml").read_text(encoding="utf-8")
    file = tomllib.loads(text)
    written = on_shelf(mix_in({"lots": file["lots"]}).lots)
    typed = {lot["species"]: lot for name, lot in typed_lots().items() if name != "O-25"}
    kept = []
    for lot in file["lots"]:
        texts = {k: v for k, v in typed[lot["species"]].items() if k not in _ONLY_IN_BOOK}
        id = book.add(read_lot_form(Given(texts), today=TODAY)).about
        kept.append(book.get(id))
    for one, other in zip(on_shelf(said(book, *kept)), written, strict=True):
        assert nominal(one.pls) == nominal(other.pls)
        assert nominal(one.count.seeds_per_kg) == nominal(other.count.seeds_per_kg)
        assert (one.price, one.bags, one.on_hand) == (other.price, other.bags, other.on_hand)
        assert (one.test_weight, one.fluffy) == (other.test_weight, other.fluffy)
        assert one.result.count_hard == other.result.count_hard


_ONLY_IN_BOOK = ("inert", "other_crop", "weed")


def test_the_newest_count_holds_and_it_is_said(book):
    lot = book.add(RYE).about
    [alone] = said(book, book.get(lot))
    assert alone.count_key == "seeds_per_lb"
    first = SeedCount(
        lot=lot, samples=(Sample(seeds=500, weight=Typed(value=12 * GRAM, text="12 g")),)
    )
    book.add(first)
    count = replace(
        first,
        samples=(
            Sample(seeds=560, weight=Typed(value=20 * GRAM, text="20 g")),
            Sample(seeds=551, weight=Typed(value=20 * GRAM, text="0.02 kg")),
        ),
        resolution=Typed(value=0.1 * GRAM, text="0.1 g"),
    )
    book.add(count)
    [counted] = said(book, book.get(lot))
    assert (counted.count_key, counted.count) == ("counted", count)
    (read,) = on_shelf([counted])
    # 1111 seeds in 40 g are 27,775 in a kg.
    assert nominal(read.count.seeds_per_kg) == pytest.approx(27_775)
    assert labels.YOUR_OWN_COUNT(told="18,100 seeds/lb") in str(which_count(RYE, count))
    assert which_count(replace(RYE, seeds_per_kg=None), count) is None


def test_a_removed_count_holds_no_more(book):
    lot = book.add(RYE).about
    sample = Sample(seeds=560, weight=Typed(value=20 * GRAM, text="20 g"))
    count = book.add(SeedCount(lot=lot, samples=(sample,))).about
    book.remove(count)
    assert said(book, book.get(lot))[0].count_key == "seeds_per_lb"


def test_replicates_and_a_home_test(book):
    lot = book.add(RYE).about
    weights = tuple(Typed(value=w * GRAM, text=f"{w} g") for w in (2.5, 2.4) * 4)
    samples = tuple(Sample(seeds=100, weight=weight) for weight in weights)
    book.add(SeedCount(lot=lot, samples=samples, way="replicates"))
    dishes = (Dish(sprouted=46, seeds=50), Dish(sprouted=45, seeds=50))
    book.add(GerminationTest(lot=lot, dishes=dishes, hard=2))
    (read,) = on_shelf(said(book, book.get(lot)))
    assert read.said.count_key == "replicates"
    # 100 seeds ÷ 2.45 g; 91 of 100 sprouted.
    assert nominal(read.count.seeds_per_kg) == pytest.approx(100 / (2.45 * GRAM))
    assert (read.tag.home_test.sprouted, read.tag.home_test.hard) == (91, 2)


def test_what_a_text_does_not_say_is_its_value():
    lot = replace(
        RYE,
        seeds_per_kg=Typed(value=40_000, text="as on the tag"),
        on_hand=Typed(value=10, text="12 kg"),
        test_weight=Typed(value=720),
    )
    found = read_kept(lot, today=TODAY)
    assert nominal(found.count.seeds_per_kg) == 40_000
    assert (found.on_hand, found.test_weight) == (10, 720)


@pytest.mark.parametrize(
    ("name", "amount", "need"),
    [
        ("on_hand", Typed(value=10, give_or_take=0.5), labels.WRITE_WITHOUT_ABOUT),
        ("test_weight", Typed(value=720, give_or_take=1), labels.WRITE_WITHOUT_ABOUT),
        ("price", Typed(value=-1), labels.GIVE_NUMBER_MORE),
        ("test_weight", Typed(value=0), labels.GIVE_VALUE_ABOVE_SUCH),
    ],
)
def test_an_amount_that_no_form_would_keep_is_refused(name, amount, need):
    with pytest.raises(MeasurementError, match=need.like()) as refused:
        read_kept(replace(RYE, **{name: amount}), today=TODAY)
    assert refused.value.field == name


def test_the_seeds_in_a_weight_are_told_in_one_way():
    both = replace(RYE, thousand_seed_weight=Typed(value=0.025, text="25 g"))
    with pytest.raises(MeasurementError, match=labels.LEAVE_IT_BLANK_OR.like()) as refused:
        read_kept(both, today=TODAY)
    assert refused.value.field == "tsw"


def test_a_lot_with_everything_on_its_tag():
    weed = Noxious(name="dodder, 2 kinds", per_kg=Typed(value=18 / POUND, text="18 seeds/lb"))
    tag = replace(RYE.tag, treated=True, hermetic=True, inert=0.02, weed=0.0, noxious=(weed,))
    lot = replace(RYE, tag=replace(tag, seeds_tested=200), count_hard=False, fluffy=True)
    read = read_kept(replace(lot, age_limit=7), today=TODAY)
    assert (read.limit.months, read.result.count_hard, read.fluffy) == (7, False, True)
    assert (read.tag.treated, read.tag.hermetic, read.tag.seeds_tested) == (True, True, 200)
    assert (read.tag.inert, read.tag.weed, str(read.tag.tested)) == (0.02, 0.0, "2026-08")
    assert [(each.name, each.per_kg) for each in read.tag.noxious] == [
        ("dodder, 2 kinds", 18 / POUND)
    ]


def test_lots_of_one_name_are_told_apart(book):
    things = [book.get(book.add(replace(RYE, name=name)).about) for name in ("A", "A", "", "")]
    names = [each.lot.name for each in said(book, *things)]
    assert names == ["A", "A (2)", "cereal rye", "cereal rye (2)"]


def test_the_limit_of_a_state(book):
    things = [book.get(book.add(RYE).about)]
    old = Month(2027, 2)  # 6 months after the test: interstate trade allows 5, Kentucky 9
    lots = said(book, *things)
    warned = [on_shelf(lots, state=state, today=old)[0].warnings for state in ("", "KY")]
    assert [
        bool(w and re.search(labels.GERMINATION_TEST_MONTHS.like(months=6), str(w[0].say)))
        for w in warned
    ] == [True, False]
    assert re.search(
        labels.NO_AGE_LIMIT.like(), str(read_kept(RYE, today=old, state="Oz").warnings[0].say)
    )


def test_a_lot_without_a_count_is_read_but_no_mix_can_be_made_of_it(book):
    own = replace(RYE, species="bee mix", own_name=True, seeds_per_kg=None)
    assert read_kept(own, today=TODAY).count is None
    thing = book.get(book.add(own).about)
    with pytest.raises(MeasurementError, match=labels.GIVE_TSW_TABLE.like()) as refused:
        on_shelf(said(book, thing))
    assert refused.value.field == "[[lots]] 1 seeds_per_lb"


def test_a_refusal_has_the_key_alone():
    with pytest.raises(MeasurementError, match=labels.GERMINATION_HARD_DORMANT.like()) as refused:
        read_kept(replace(RYE, tag=replace(RYE.tag, hard=0.2)), today=TODAY)
    assert refused.value.field == "germination"


def test_only_a_lot_is_one(book):
    note = book.get(book.add(Note(of=book.new_id(), text="x")).about)
    with pytest.raises(MeasurementError, match=labels.GIVE_ID_LOT.like()):
        said(book, note)
