"""The page of the command line knows every command, flag, key and table.

It is made from the prose of tools/cli.md by ``make docs-cli``. That what it
shows is what its commands print is checked with the other pages' commands.
"""

import json
import re
import runpy
import shlex
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from evenstand.book.opening import open_book
from evenstand.book.place import default_path
from evenstand.compose import command_line
from evenstand.demo.book import fill
from evenstand.tasks.job.tables import KEYS

MADE = runpy.run_path(str(Path(__file__).parents[2] / "tools/cli_page.py"))
PAGE, PROSE = MADE["PAGE"], MADE["PROSE"]
LINE = command_line()
ALL = {name: LINE.get_command(click.Context(LINE), name) for name in LINE.places}
COMMANDS = {name: each for name, each in ALL.items() if not isinstance(each, click.Group)}
GROUPS = {name: each for name, each in ALL.items() if isinstance(each, click.Group)}


@pytest.fixture
def page(tmp_path, monkeypatch):
    """The page, in a folder that holds its files."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    text = PAGE.read_text(encoding="utf-8")
    MADE["lay"](text, tmp_path)
    return text


def run(*arguments):
    return CliRunner().invoke(command_line(), arguments, prog_name="evenstand")


def section(page, command):
    found = re.search(rf"^## evenstand {command}\n(.*?)(?=^## |\Z)", page, re.DOTALL | re.MULTILINE)
    assert found, f"docs/cli.md does not describe evenstand {command}"
    return found[1]


def test_the_page_is_made_of_its_prose():
    """If this fails: change tools/cli.md, then make docs-cli."""
    assert MADE["without_output"](PAGE.read_text(encoding="utf-8")) == PROSE.read_text("utf-8")


def test_the_help_of_a_command_in_a_group_is_what_it_prints(page):
    """Shown as text, for it names a path of whoever asks."""
    assert MADE["USAGE"].sub(MADE["usage"], page) == page


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_its_help_and_its_example(page, command):
    assert f"\n$ evenstand {command} --help\n" in section(page, command)
    assert f"Example:\n    evenstand {command}" in section(page, command)


@pytest.mark.parametrize("group", GROUPS)
def test_every_group_has_its_help_and_its_commands(page, group):
    assert f"\n$ evenstand {group} --help\n" in section(page, group)
    for command in GROUPS[group].list_commands(click.Context(GROUPS[group])):
        assert f"`{command}`" in section(page, group), command


@pytest.mark.parametrize("command", COMMANDS)
def test_every_flag_says_what_it_is(command):
    for param in COMMANDS[command].params:
        if isinstance(param, click.Option):
            assert param.help, f"{command} {param.opts[0]}"
            assert len(param.help) < 80


@pytest.mark.parametrize(
    "command", ["turns", "catch", "rows", "calibrate", "seeding", "stand", "demo"]
)
def test_every_answer_can_be_json_in_either_units_and_with_its_working(command):
    flags = {flag for param in COMMANDS[command].params for flag in param.opts}
    assert {"--json", "--units", "--working"} <= flags


@pytest.mark.parametrize("command", [each for each in COMMANDS if each != "serve"])
def test_every_example_runs(page, tmp_path, command):
    """All but that of serve, which runs until it is ended."""
    example = COMMANDS[command].epilog.partition("Example:")[2].replace("\\\n", " ")
    if command == "record":  # of a job in one's own book
        default_path().parent.mkdir(parents=True)
        with open_book(default_path(), device="shed", who="Ada") as book:
            fill(book)
    done = run(*shlex.split(example)[1:])
    assert done.exit_code == 0, done.stderr


@pytest.mark.parametrize(
    ("command", "arguments"),
    [
        ("tag", '--purity "98%" --germination "92%"'),
        ("species", "hairy vetch"),
        ("mix", "alder-bench.toml"),
        ("boxes", "alder-bench.toml"),
        ("order", "alder-bench.toml"),
        ("turns", '--rows 24 --spacing "7.5 in" --rolled 95in --area "1 ac" --speed "5 mph"'),
        ("catch", '--rows 24 --spacing "7.5 in" --area "1 ac" --net "60 lb"'),
        ("rows", '--weights "22, 23, 22, 24 g"'),
        ("calibrate", "heron.toml"),
        ("seeding", "on-the-way.toml"),
        ("stand", "counts.toml"),
        ("demo", ""),
    ],
)
def test_every_key_of_its_json_is_named(page, command, arguments):
    done = run(command, *shlex.split(arguments), "--json")
    for key in json.loads(done.stdout):
        assert f"`{key}`" in section(page, command)


def test_every_table_and_key_of_a_job_file_is_named(page):
    text = section(page, "calibrate")
    for table, keys in KEYS.items():
        line = next(line for line in text.splitlines() if re.match(rf"\| `\[+{table}\]", line))
        for key in keys:
            inner = f"{table}.{key}" in KEYS or (table, key) in ELSEWHERE
            assert inner or f"`{key}`" in line, f"[{table}] {key}"


# A history is written as a chart, and a member may hold the keys of a lot.
ELSEWHERE = {("history", key) for key in KEYS["chart"]} | {("mix", key) for key in KEYS["lots"]}
