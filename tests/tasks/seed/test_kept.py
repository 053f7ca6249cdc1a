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
from evenstand.tasks.parsing.given import Given
from evenstand.tasks.seed.form import read_lot_form
from evenstand.tasks.seed.kept import lot_table, lot_tables, read_kept, shelf, table_of, which_count
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


@pytest.mark.parametrize("demo", ["alder_bench", "teal"])
def test_the_lots_of_the_demo_book_are_those_of_its_job_files(book, demo):
    """Two routes to the same shelf: forms into the book, and a file as it is written."""
    text = (files("evenstand.demo") / f"{demo}.toml").read_text(encoding="utf-8")
    file = tomllib.loads(text)
    written = read_shelf({"lots": file["lots"]}, today=TODAY)
    typed = {lot["species"]: lot for name, lot in typed_lots().items() if name != "O-25"}
    kept = []
    for lot in file["lots"]:
        texts = {k: v for k, v in typed[lot["species"]].items() if k not in _ONLY_IN_BOOK}
        id = book.add(read_lot_form(Given(texts), today=TODAY)).about
        kept.append(book.get(id))
    found = shelf(book, kept, state="", today=TODAY)
    for one, other in zip(found.lots, written.lots, strict=True):
        assert nominal(one.pls) == nominal(other.pls)
        assert nominal(one.count.seeds_per_kg) == nominal(other.count.seeds_per_kg)
        assert (one.price, one.bags, one.on_hand) == (other.price, other.bags, other.on_hand)
        assert (one.test_weight, one.fluffy) == (other.test_weight, other.fluffy)
        assert one.result.count_hard == other.result.count_hard


_ONLY_IN_BOOK = ("inert", "other_crop", "weed")


def test_the_newest_count_holds_and_it_is_said(book):
    lot = book.add(RYE).about
    assert lot_table(book, book.get(lot))["seeds_per_lb"] == "18,100 seeds/lb"
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
    table = lot_table(book, book.get(lot))
    assert table["counted"] == ["560 in 20 g", "551 in 0.02 kg"]
    assert table["resolution"] == "0.1 g"
    assert "seeds_per_lb" not in table
    (read,) = shelf(book, [book.get(lot)], state="", today=TODAY).lots
    # 1111 seeds in 40 g are 27,775 in a kg.
    assert nominal(read.count.seeds_per_kg) == pytest.approx(27_775)
    assert labels.YOUR_OWN_COUNT(told="18,100 seeds/lb") in str(which_count(RYE, count))
    assert which_count(replace(RYE, seeds_per_kg=None), count) is None


def test_a_removed_count_holds_no_more(book):
    lot = book.add(RYE).about
    sample = Sample(seeds=560, weight=Typed(value=20 * GRAM, text="20 g"))
    count = book.add(SeedCount(lot=lot, samples=(sample,))).about
    book.remove(count)
    assert lot_table(book, book.get(lot))["seeds_per_lb"] == "18,100 seeds/lb"


def test_replicates_and_a_home_test(book):
    lot = book.add(RYE).about
    weights = tuple(Typed(value=w * GRAM, text=f"{w} g") for w in (2.5, 2.4) * 4)
    samples = tuple(Sample(seeds=100, weight=weight) for weight in weights)
    book.add(SeedCount(lot=lot, samples=samples, way="replicates"))
    dishes = (Dish(sprouted=46, seeds=50), Dish(sprouted=45, seeds=50))
    book.add(GerminationTest(lot=lot, dishes=dishes, hard=2))
    table = lot_table(book, book.get(lot))
    assert table["replicates"] == ["2.5 g", "2.4 g"] * 4
    assert (table["home_test"], table["home_hard"]) == (["46/50", "45/50"], "2")
    (read,) = shelf(book, [book.get(lot)], state="", today=TODAY).lots
    # 100 seeds ÷ 2.45 g; 91 of 100 sprouted.
    assert nominal(read.count.seeds_per_kg) == pytest.approx(100 / (2.45 * GRAM))
    assert read.tag.home_test.sprouted == 91


def test_what_a_text_does_not_say_is_written_from_its_value():
    lot = replace(
        RYE,
        seeds_per_kg=Typed(value=40_000, text="as on the tag"),
        on_hand=Typed(value=10, give_or_take=0.5, text="10 kg"),
        test_weight=Typed(value=720),
    )
    table = table_of(lot)
    assert table["seeds_per_lb"] == "40000 seeds/kg"
    assert table["on_hand"] == "10 ± 0.5 kg"
    assert table["test_weight"] == "72 kg/hL"


def test_a_lot_with_everything_on_its_tag():
    weed = Noxious(name="dodder", per_kg=Typed(value=18 / POUND, text="18 seeds/lb"))
    tag = replace(RYE.tag, treated=True, hermetic=True, inert=0.02, weed=0.0, noxious=(weed,))
    lot = replace(RYE, tag=tag, count_hard=False, fluffy=True, buy=False, age_limit=7)
    table = table_of(replace(lot, tag=replace(tag, seeds_tested=200)))
    assert table["noxious"] == ["dodder 18 seeds/lb"]
    assert (table["treated"], table["hermetic"], table["buy"]) == (True, True, False)
    assert (table["count_hard"], table["fluffy"], table["age_limit"]) == (False, True, "7")
    assert (table["inert"], table["weed"], table["seeds_tested"]) == ("2%", "0%", "200")
    read = read_kept(lot, today=TODAY)
    assert read.limit.months == 7
    assert read.tag.noxious[0].per_kg == pytest.approx(18 / POUND)


def test_lots_of_one_name_are_told_apart(book):
    things = [book.get(book.add(replace(RYE, name=name)).about) for name in ("A", "A", "", "")]
    names = [table["name"] for table in lot_tables(book, things)]
    assert names == ["A", "A (2)", "cereal rye", "cereal rye (2)"]


def test_the_limit_of_a_state(book):
    things = [book.get(book.add(RYE).about)]
    old = Month(2027, 2)  # 6 months after the test: interstate trade allows 5, Kentucky 9
    warned = [shelf(book, things, state=s, today=old).lots[0].warnings for s in ("", "KY")]
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
        shelf(book, [thing], state="", today=TODAY)
    assert refused.value.field == "[[lots]] 1 seeds_per_lb"


def test_a_refusal_has_the_key_alone():
    with pytest.raises(MeasurementError, match=labels.GERMINATION_HARD_DORMANT.like()) as refused:
        read_kept(replace(RYE, tag=replace(RYE.tag, hard=0.2)), today=TODAY)
    assert refused.value.field == "germination"


def test_only_a_lot_is_one(book):
    note = book.get(book.add(Note(of=book.new_id(), text="x")).about)
    with pytest.raises(MeasurementError, match=labels.GIVE_ID_LOT.like()):
        lot_table(book, note)
