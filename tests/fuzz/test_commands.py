"""Whatever stands in a job file or behind a command: a result or a refusal, never a traceback."""

from importlib.resources import files

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from evenstand.compose import command_line
from long import TIMES, tried

JOBS = [
    (files("evenstand.demo") / name).read_text("utf-8")
    for name in ("alder_bench.toml", "teal.toml")
]
COMMANDS = ("calibrate", "turns", "rows", "mix", "boxes", "order", "seeding", "stand", "tag")
FLAGS = ("--json", "--working", "--units", "metric", "us", "--solve", "--tare", "9", "-1", "\x00x")
PUT = st.one_of(
    st.sampled_from(
        ['""', "0", "-1", "1e400", "nan", "[]", "{}", '"1/0"', '"12 lb"', "=", "[[", '"\\u0000"']
    ),
    st.text(st.characters(exclude_categories=["Cs"]), max_size=12),
)


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("jobs")


@settings(max_examples=60 * TIMES)
@given(
    job=st.sampled_from(JOBS),
    command=st.sampled_from(COMMANDS),
    changes=st.lists(st.tuples(st.integers(0, 10**6), PUT, st.booleans()), max_size=3),
    flags=st.lists(st.sampled_from(FLAGS), max_size=2),
)
def test_a_job_file_that_is_damaged_is_worked_out_or_refused(
    folder, *, job, command, changes, flags
):
    tried("commands")
    lines = job.splitlines()
    for at, put, whole in changes:
        key, equals, _ = lines[at % len(lines)].partition("=")
        lines[at % len(lines)] = put if whole or not equals else f"{key}= {put}"
    path = folder / "job.toml"
    path.write_text("\n".join(lines), encoding="utf-8")
    answer = CliRunner().invoke(command_line(), [command, str(path), *flags])
    assert answer.exit_code in (0, 1, 2), answer.output
    assert answer.exception is None or isinstance(answer.exception, SystemExit), answer.exception
