"""The command line, run in this process, in a folder of its own."""

import json

import pytest
from click.testing import CliRunner

from evenstand.compose import command_line

HERON = """\
# Heron, an invented drill
[drill]
name = "Heron"
rows = 20
spacing = "7.5 in"
rolled = "95 in"

[drill.scale]
low = 0
high = 60
step = 1
slack = "below"

[[drill.gears]]
name = "full"
ratio = 1

[[drill.gears]]
name = "half"
ratio = 0.5

[chart]
gear = "full"
points = [
  [20, "36 lb/ac"],
  [30, "54 lb/ac"],
  [40, "72 lb/ac"],
]

[target]
rate = "54 lb/ac"
tolerance = "5%"
on = "field"
gear = "full"
"""
CATCH = """
[[catch]]
setting = 30
gear = "full"
turns = 20
rows_caught = 20
net = "40 oz"
"""


@pytest.fixture
def run(tmp_path, monkeypatch):
    """Run ``evenstand`` with some arguments; what it said and its code."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "80")

    def run(*arguments, answers=None, columns=None):
        if columns:
            monkeypatch.setenv("COLUMNS", str(columns))
        return CliRunner().invoke(command_line(), list(arguments), input=answers)

    return run


@pytest.fixture
def document(run):
    """Run a command with --json and read what it wrote."""

    def document(*arguments):
        done = run(*arguments, "--json")
        assert done.exit_code == 0, done.stderr
        return json.loads(done.stdout)

    return document


@pytest.fixture
def refusal(run):
    """Run a command that must refuse, with and without --json."""

    def refusal(*arguments):
        plain, done = run(*arguments), run(*arguments, "--json")
        assert (plain.exit_code, done.exit_code) == (2, 2)
        assert (plain.stdout, done.stdout) == ("", "")
        assert plain.stderr.startswith("Error: ")
        error = json.loads(done.stderr)["error"]
        assert error["field"] in plain.stderr
        assert error["need"] in plain.stderr
        return error

    return refusal


@pytest.fixture
def heron(tmp_path):
    """Write a job file, changed in places, and return its name."""

    def heron(*changes, catch=CATCH, more=""):
        text = HERON + catch + more
        for old, new in changes:
            assert old in text, old
            text = text.replace(old, new)
        (tmp_path / "heron.toml").write_text(text, encoding="utf-8")
        return "heron.toml"

    return heron


BENCH = """\
# Alder Bench, an invented field
[drill]
name = "Heron"
rows = 20
spacing = "7.5 in"
rolled = "95 in"

[drill.scale]
low = 0
high = 60

[chart]
points = [[20, "36 lb/ac"], [30, "54 lb/ac"], [40, "72 lb/ac"]]

[field]
name = "Alder Bench"
area = "38.5 ac"
pass_length = "1290 ft"

[[lots]]
species = "cereal rye"
purity = "98%"
germination = "90%"
tested = "2026-08"
seeds_per_lb = 18100
bags = [["50 lb", "$18"]]

[[lots]]
species = "hairy vetch"
purity = "98%"
germination = "82%"
tested = "2026-08"
seeds_per_lb = 16500
bags = [["50 lb", "$92"]]
on_hand = "75 lb"

[[lots]]
species = "crimson clover"
purity = "97%"
germination = "85%"
tested = "2026-08"
seeds_per_lb = 150000
test_weight = "60 lb/bu"
bags = [["50 lb", "$85"], ["25 lb", "$45"]]

[[mix]]
species = "cereal rye"
bulk = "45 lb/ac"

[[mix]]
species = "hairy vetch"
bulk = "15 lb/ac"

[[mix]]
species = "crimson clover"
bulk = "6 lb/ac"

[order]
overlap = "4%"
batch = "600 lb"
speed = "5 mph"
refill = "15 min"

[[inoculant]]
species = "vetch"
name = "pea and vetch"
amount = "6 oz"
seed = "100 lb"
pack = "6 oz"
"""
BOXES = """
[[boxes]]
name = "grain"
volume = "20 bu"
takes = "grain"
test_weight = "56 lb/bu"
heel = "20 lb"
catches = "6 lb"

[[boxes]]
name = "small seed"
volume = "4 bu"
takes = "small seed"
"""


@pytest.fixture
def bench(tmp_path):
    """Write a job file with mix, boxes and order, changed in places, and return its name."""

    def bench(*changes, boxes=BOXES, more=""):
        text = BENCH + boxes
        for old, new in changes:
            assert old in text, old
            text = text.replace(old, new, 1)
        (tmp_path / "bench.toml").write_text(text + more, encoding="utf-8")
        return "bench.toml"

    return bench
