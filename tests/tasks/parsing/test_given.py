"""What was written is read under its writer's name."""

import pytest

import labels
from evenstand.cli.flags import Flag
from evenstand.engine.quantities.errors import MeasurementError, Path
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import CATCH, GRAM, NUMBER, OUNCE, RATE, ROWS, SHARE
from evenstand.engine.statistics.budget import nominal, standard_uncertainty
from evenstand.tasks.parsing.given import Given, listed


def written(**texts):
    return Given(texts, Flag)


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        ("22.6 g, 22.4 g", ["22.6 g", "22.4 g"]),
        ("22.6 g,22.4 g", ["22.6 g", "22.4 g"]),
        ("22.6, 22.4 g", ["22.6 g", "22.4 g"]),
        ("22.6,22.4,22.5 g", ["22.6 g", "22.4 g", "22.5 g"]),
        ("22,6 g; 22,4 g", ["22,6 g", "22,4 g"]),
        ("22,6 g, 22,4 g", ["22,6 g", "22,4 g"]),
        ("22 g\n23 g", ["22 g", "23 g"]),
        ("2 lb 3 oz, 2 lb 4 oz", ["2 lb 3 oz", "2 lb 4 oz"]),
        ("2 1/2, 2 oz", ["2 1/2 oz", "2 oz"]),
        ("front,rear", ["front", "rear"]),
        ("full 1, half 0.5", ["full 1", "half 0.5"]),
        ("8 oz", ["8 oz"]),
        ("1,5 oz", ["1,5 oz"]),
        ("", []),
        (" ; , ", []),
    ],
)
def test_lists_come_apart_at_commas_that_are_not_decimal(text, pieces):
    assert listed(text) == pieces


def test_commas_without_spaces_between_whole_numbers_are_not_guessed():
    """25,27,26 g could be read in more than one way: the reader of weights refuses it."""
    assert listed("25,27,26 g") == ["25,27,26 g"]


def test_zero_slip_needs_no_unit():
    assert nominal(written(slip="0").share("slip", tag="slip")) == 0


def test_limits_become_an_uncertainty():
    # ± 2 % is 2 % over √3.
    slip = written(slip="3 ± 2%").share("slip", tag="slip")
    assert nominal(slip) == pytest.approx(0.03)
    assert standard_uncertainty(slip) == pytest.approx(0.02 / 3**0.5)


def test_a_ratio_may_be_a_percentage():
    assert nominal(written(r="96 ± 3%").ratio("r", tag="r")) == pytest.approx(0.96)
    assert nominal(written(r="0.96").ratio("r", tag="r")) == pytest.approx(0.96)


@pytest.mark.parametrize(
    ("read", "text", "need"),
    [
        (lambda g: g.text("x"), None, labels.MISSING_GIVE),
        (lambda g: g.text("x"), " ", labels.EMPTY_GIVE_LEAVE),
        (lambda g: g.exact("x", CATCH), "0 oz", labels.GIVE_VALUE_ABOVE_SUCH(example="8 oz")),
        (lambda g: g.quantity("x", RATE, tag="x"), "-1 lb/ac", "enter a value above 0"),
        (lambda g: g.exact("x", CATCH), "8 ± 1 oz", labels.WRITE_WITHOUT_ABOUT),
        (lambda g: g.share("x", tag="x"), "100%", labels.GIVE_SHARE_BELOW),
        (lambda g: g.share("x", tag="x"), "3", "enter it with a percent sign"),
        (lambda g: g.number("x"), "3 ± 1", labels.GIVE_PLAIN_NUMBER),
        (lambda g: g.count("x", ROWS), "2.5", labels.GIVE_WHOLE_NUMBER(least=1)),
        (lambda g: g.count("x", ROWS), "0", labels.GIVE_WHOLE_NUMBER(least=1)),
        (lambda g: g.yes("x"), "maybe", labels.ANSWER_YES_NO),
        (
            lambda g: g.one_of("x", ("field", "static")),
            "bench",
            labels.GIVE_ONE_OF_CHOICES(choices="field, static"),
        ),
        (
            lambda g: g.one_of("x", ("field", "static")),
            "statik",
            labels.DID_YOU_MEAN(near="static"),
        ),
        (lambda g: g.reading("x", NUMBER), "3 lb", "3 lb is a weight; this needs a number"),
    ],
)
def test_refusals_name_the_field(read, text, need):
    given = written() if text is None else written(x=text)
    with pytest.raises(MeasurementError) as refusal:
        read(given)
    assert (refusal.value.field, refusal.value.given) == ("--x", text)
    assert need in str(refusal.value.need)


def test_the_beginning_of_a_word_is_enough():
    choices = ("thin stand", "wasted seed", "neither")
    assert written(x="Thin-Stand").one_of("x", choices) == "thin stand"
    assert written(x="w").one_of("x", choices) == "wasted seed"
    assert [written(x=text).yes("x") for text in ("Y", "no", "sí")] == [True, False, True]


def test_pointing_gives_the_engine_s_paths_the_writer_s():
    given = written(net="8 oz")
    with pytest.raises(MeasurementError) as refusal, given.pointing(chart_points="net"):
        raise MeasurementError(Path("chart", "points"), (1, 2), say("no"))
    assert (refusal.value.field, refusal.value.given) == ("--net", "8 oz")
    with pytest.raises(MeasurementError) as refusal, given.pointing():
        raise MeasurementError(Flag("gross"), 1, say("no"))
    assert refusal.value.field == "--gross"


def test_amounts_are_si():
    assert written(x="8 oz").exact("x", CATCH) == pytest.approx(8 * OUNCE)
    assert written(x="1 g").exact("x", CATCH) == pytest.approx(GRAM)
    assert written(x="5%").reading("x", SHARE).value == pytest.approx(0.05)
