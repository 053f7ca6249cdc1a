"""What cannot be used is refused, naming the field; what is only absurd is asked about."""

import pytest

TURNS = ("turns", "--rows", "24", "--spacing", "7.5 in", "--rolled", "95 in", "--area", "0.05 ac")
CATCH = (
    *("catch", "--rows", "24", "--spacing", "7.5 in", "--rolled", "95 in"),
    *("--turns", "20", "--rows-caught", "4", "--net", "8 oz"),
)


def change(arguments, flag, text):
    place = arguments.index(flag)
    return (*arguments[: place + 1], text, *arguments[place + 2 :])


@pytest.mark.parametrize("text", ["0 {u}", "-3 {u}", "nan {u}", "", "   ", "{u}", "1e999 {u}"])
@pytest.mark.parametrize(
    ("arguments", "flag", "unit"),
    [
        (TURNS, "--rows", "rows"),
        (TURNS, "--spacing", "in"),
        (TURNS, "--rolled", "in"),
        (TURNS, "--area", "ac"),
        (CATCH, "--turns", "turns"),
        (CATCH, "--rows-caught", "rows"),
        (CATCH, "--net", "oz"),
        ((*CATCH, "--target", "60 lb/ac"), "--target", "lb/ac"),
        ((*CATCH, "--resolution", "1 g"), "--resolution", "g"),
    ],
)
def test_zero_negative_nan_empty(refusal, *, arguments, flag, unit, text):
    assert refusal(*change(arguments, flag, text.format(u=unit)))["field"] == flag


@pytest.mark.parametrize(
    ("arguments", "flag", "text", "need"),
    [
        (CATCH, "--net", "8 ft", "8 ft is a length; this needs a weight"),
        (TURNS, "--rolled", "95 oz", "95 oz is a weight; this needs a length per turn"),
        (TURNS, "--area", "20 ft", "20 ft is a length; this needs an area"),
        (CATCH, "--net", "8 ozz", "did you mean oz?"),
        (TURNS, "--rolled", "95", "enter the unit too"),
        (TURNS, "--rows", "20.5", "enter a whole number of 1 or more"),
        (CATCH, "--net", "8 ± 0.1 oz", "enter it without ±"),
        (CATCH, "--rows-caught", "25", "enter no more than the drill's 24 open rows"),
    ],
)
def test_kinds_and_units(refusal, *, arguments, flag, text, need):
    error = refusal(*change(arguments, flag, text))
    assert (error["field"], error["given"]) == (flag, text)
    assert need in error["need"]


@pytest.mark.parametrize(
    ("more", "field"),
    [
        (("--taped", "95 in", "--slip", "3%"), "--taped"),
        (("--slip", "3%"), "--slip"),
        (("--blocked", "24"), "--blocked"),
        (("--blocked", "23", "--blocked-end", "1"), "--blocked"),
        (("--distance", "100 ft"), "--distance"),
        (("--gross", "9 oz"), "--gross"),
        (("--tare", "1 oz"), "--tare"),
        (("--per-turn", "3"), "--per-turn"),
        (("--again", "8 ft"), "--again"),
        (("--again", "0 oz"), "--again"),
        (("--target", "60 lb/ac", "--tolerance", "80%"), "--tolerance"),
        (("--target", "60 lb/ac", "--tolerance", "0%"), "--tolerance"),
        (("--target", "60 lb/ac", "--tolerance", "5"), "--tolerance"),
        (("--target", "60 lb/ac", "--on", "bench"), "--on"),
        (("--target", "22 seeds/ft2"), "--target"),
        (("--field-ratio", "0"), "--field-ratio"),
        (("--row-cv", "-2%"), "--row-cv"),
        (("--scale-tolerance", "-1 g"), "--scale-tolerance"),
    ],
)
def test_flags_that_clash_or_cannot_be(refusal, more, field):
    assert refusal(*CATCH, *more)["field"] == field


@pytest.mark.parametrize(
    ("taken_out", "field"),
    [("--rolled", "--rolled"), ("--net", "--net"), ("--turns", "--turns"), ("--rows", "--rows")],
)
def test_what_is_missing_is_named(refusal, taken_out, field):
    place = CATCH.index(taken_out)
    error = refusal(*CATCH[:place], *CATCH[place + 2 :])
    assert (error["field"], error["given"]) == (field, None)


def test_gross_below_tare(refusal):
    bag = ("--gross", "2 oz", "--tare", "3 oz")
    error = refusal(*CATCH[:-2], *bag)
    assert (error["field"], error["given"]) == ("--gross", "2 oz")
    assert refusal(*CATCH[:-2], "--gross", "3 oz", "--tare", "3 oz")["field"] == "--gross"
    assert refusal(*CATCH[:-2], "--gross", "3 oz", "--tare", "-3 oz")["field"] == "--tare"


def test_weights_that_do_not_share_out(refusal):
    error = refusal(*CATCH[:-2], "--weights", "2 oz, 2 oz, 2 oz")
    assert error["field"] == "--weights"
    assert "for each of the 4 rows caught" in error["need"]
    assert refusal(*CATCH[:-2], "--weights", "2 oz, -2 oz, 2 oz, 2 oz")["field"] == "--weights"
    assert refusal(*CATCH[:-2], "--weights", "0 oz, 0 oz, 0 oz, 0 oz")["field"] == "--weights"
    assert refusal("rows", "--weights", "2 oz, 2 oz")["need"] == "enter at least 3 rows"
    assert refusal("rows", "--weights", "2, 2, 2 oz", "--limit", "0%")["field"] == "--limit"


def test_rows_must_be_known(refusal):
    place = CATCH.index("--rows-caught")
    without = (*CATCH[:place], *CATCH[place + 2 :])
    assert refusal(*without)["field"] == "--rows-caught"
    many = ", ".join(["2 oz"] * 25)
    error = refusal(*without[:-2], "--weights", many)
    assert "at most one weight for each of the 24 open rows" in error["need"]


def test_slip_of_all_turns(refusal):
    taped = ("turns", "--rows", "24", "--spacing", "7.5 in", "--taped", "95 in")
    area = ("--area", "0.05 ac")
    assert refusal(*taped, "--slip", "100%", *area)["field"] == "--slip"
    assert refusal(*taped, *area)["field"] == "--slip"


def test_a_flag_that_is_not_there(refusal):
    error = refusal("catch", "--roled", "95 in")
    assert (error["field"], "did you mean --rolled?" in error["need"]) == ("--roled", True)


def test_a_command_that_is_not_there(run):
    done = run("cach", "--json")
    assert done.exit_code == 2
    assert '"error"' in done.stderr


@pytest.mark.parametrize(
    ("old", "new", "field", "line"),
    [
        ('rate = "54 lb/ac"', 'rate = "8 ft"', "[target] rate", 31),
        ('rate = "54 lb/ac"', "rate = nan", "[target] rate", 31),
        ('rate = "54 lb/ac"', 'rate = ""', "[target] rate", 31),
        ('rate = "54 lb/ac"', 'rate = "900 lb/ac"', "[target] rate", 31),
        ('rate = "54 lb/ac"', 'rate = "1 bu/ac"', "[target] rate", 31),
        ('rate = "54 lb/ac"', 'rat = "54 lb/ac"', "[target] rat", 31),
        ("[target]", "[taget]", "[taget]", 30),
        ("[target]", "[xyz]", "[xyz]", 30),
        ('tolerance = "5%"', 'tolerance = "0%"', "[target] tolerance", 32),
        ("setting = 30", "setting = 61", "[[catch]] 1 setting", 37),
        ("setting = 30", "setting = true", "[[catch]] 1 setting", 37),
        ('gear = "full"\nturns', 'gear = "ful"\nturns', "[[catch]] 1 gear", 38),
        ("turns = 20", "turns = -20", "[[catch]] 1 turns", 39),
        ("rows_caught = 20", "rows_caught = 21", "[[catch]] 1 rows_caught", 40),
        ('net = "40 oz"', 'net = "40 ozz"', "[[catch]] 1 net", 41),
        ('net = "40 oz"', 'weights = ["2 oz", "1 ft"]', "[[catch]] 1 weights", 41),
        ('net = "40 oz"', 'gross = "1 oz"\ntare = "2 oz"', "[[catch]] 1 gross", 41),
        ('[30, "54 lb/ac"]', '[30, "34 lb/ac"]', "[chart] points", 24),
        ('[30, "54 lb/ac"]', '[30, "54 lb"]', "[chart] points", 26),
        ('[30, "54 lb/ac"]', '[30, "0 lb/ac"]', "[chart] points", 26),
        ('[30, "54 lb/ac"]', '[20, "54 lb/ac"]', "[chart] points", 24),
        ('[30, "54 lb/ac"]', '[300, "154 lb/ac"]', "[chart] points", 24),
        ('[30, "54 lb/ac"]', '["30"]', "[chart] points", 24),
        ("high = 60", "high = -1", "[drill.scale] high", 10),
        ("step = 1", "step = 0", "[drill.scale] step", 11),
        ('slack = "below"', 'slack = "belw"', "[drill.scale] slack", 12),
        ("low = 0", "low = inf", "[drill.scale] low", 9),
        ("ratio = 0.5", "ratio = 0", "[[drill.gears]] 2 ratio", 20),
        ('name = "half"', 'name = "full"', "[[drill.gears]] 2 name", 19),
        ("rows = 20", "rows = 0", "[drill] rows", 4),
        ('spacing = "7.5 in"', "spacing = [7.5]", "[drill] spacing", 5),
    ],
)
def test_a_file_names_line_and_key(refusal, heron, *, old, new, field, line):
    error = refusal("calibrate", heron((old, new)))
    assert (error["field"], error["file"], error["line"]) == (field, "heron.toml", line)


@pytest.mark.parametrize(
    ("old", "new", "field", "line"),
    [
        ('rate = "54 lb/ac"', "rate = 54 lb/ac", "[target] rate", 31),
        ("[target]", "[target", "[target]", 30),
        ("rows = 20", "rows 20", "[drill] rows", 4),
        ("rows = 20", "rows = 20\nrows = 20", "[drill] rows", 5),
    ],
)
def test_what_is_not_toml_names_line_and_key(refusal, heron, *, old, new, field, line):
    error = refusal("calibrate", heron((old, new)))
    assert error["line"] == line
    assert error["field"].endswith(field)
    assert "is not TOML, at column" in error["need"]


def test_half_a_file_says_how_to_go_on(refusal, heron):
    error = refusal("calibrate", heron(('rate = "54 lb/ac"\n', "")))
    assert (error["field"], error["given"]) == ("[target] rate", None)
    assert "evenstand calibrate heron.toml --continue" in error["need"]


def test_a_file_that_is_not_there_or_not_text(refusal, tmp_path):
    assert refusal("calibrate", "nothing.toml")["field"] == "nothing.toml"
    (tmp_path / "bytes.toml").write_bytes(b"\xff\xfe\x00")
    assert refusal("calibrate", "bytes.toml")["field"] == "bytes.toml"
    assert refusal("calibrate", str(tmp_path))["field"] == str(tmp_path)


def test_test_weights_must_be_known_of_both(refusal, heron):
    chart = ('gear = "full"\npoints', 'gear = "full"\ntest_weight = "60 lb/bu"\npoints')
    assert refusal("calibrate", heron(chart))["field"] == "[seed] test_weight"
    seed = '\n[seed]\ntest_weight = "58 lb/bu"\n'
    assert refusal("calibrate", heron(more=seed))["field"] == "[chart] test_weight"


@pytest.mark.parametrize(
    ("old", "new", "about"),
    [
        ('rolled = "95 in"', 'rolled = "20 ft"', "[drill] rolled"),
        ('spacing = "7.5 in"', 'spacing = "75 in"', "[drill] spacing"),
        ("rows = 20", "rows = 200", "[drill] rows"),
        ('tolerance = "5%"', 'tolerance = "40%"', "[target] tolerance"),
    ],
)
def test_absurd_but_possible_is_asked_about(run, heron, *, old, new, about):
    done = run("calibrate", heron((old, new), catch=""))
    assert done.exit_code == 0
    assert f"Please check {about}: " in done.stderr


def test_a_500_pound_rate_is_asked_about(run):
    done = run(*CATCH, "--target", "500 lb/ac")
    assert done.exit_code == 0
    assert "Please check --target: 500 lb/ac is above 300 lb/ac" in done.stderr
