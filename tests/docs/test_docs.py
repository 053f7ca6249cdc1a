"""What the pages say is true: links lead somewhere, commands print what is shown, examples run.

A ``toml`` block whose first line is ``# name.toml`` is laid into the folder
where the commands of its page run, in the order they stand. Commands of other
programs (``$ make run``) are not run, but a target of make must exist.
"""

import doctest
import os
import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from evenstand.compose import command_line

ROOT = Path(__file__).parents[2]
PAGES = sorted([*ROOT.glob("*.md"), *ROOT.glob("docs/**/*.md")])
BLOCK = re.compile(r"^```(\w*)[^\n]*\n(.*?)^```$", re.DOTALL | re.MULTILINE)
LINK = re.compile(r"(?<!!)\[[^\]]*\]\(([^)\s]+)\)|!\[[^\]]*\]\(([^)\s]+)\)")
EACH_PAGE = pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)


def blocks(page, *kinds):
    """The fenced blocks of these kinds, in order, as (kind, text)."""
    found = BLOCK.findall(page.read_text(encoding="utf-8"))
    return [(kind, text) for kind, text in found if kind in kinds]


def anchors(page):
    """Every heading of a page, as a link names it."""
    prose = BLOCK.sub("", page.read_text(encoding="utf-8"))
    headings = re.findall(r"^#+ (.+)$", prose, re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", text.lower()).replace(" ", "-") for text in headings}


def broken_links(page):
    """Links of a page to files or headings that are not there."""
    prose = BLOCK.sub("", page.read_text(encoding="utf-8"))
    for link in (target or image for target, image in LINK.findall(prose)):
        if re.match(r"[a-z]+:", link):
            continue
        path, _, anchor = link.partition("#")
        target = page.parent / path if path else page
        if not target.exists() or (anchor and anchor not in anchors(target)):
            yield link


def commands(text):
    """Each command of a console block with the output shown under it."""
    for part in re.split(r"^\$ ", text, flags=re.MULTILINE)[1:]:
        written = re.match(r"(?:.*\\\n)*.*\n?", part)[0]
        yield written.replace("\\\n", " ").rstrip("\n"), part[len(written) :]


@pytest.fixture
def run(tmp_path, monkeypatch):
    """Run ``evenstand …`` in a folder that is also its home; gives all it printed."""
    monkeypatch.chdir(tmp_path)
    for name in [each for each in os.environ if each.startswith(("XDG_", "EVENSTAND_"))]:
        monkeypatch.delenv(name)
    for name, value in (("HOME", str(tmp_path)), ("COLUMNS", "80"), ("NO_COLOR", "1")):
        monkeypatch.setenv(name, value)

    def run(command):
        words = shlex.split(command)[1:]
        width = {"terminal_width": 78}  # what 80 columns leave
        done = CliRunner().invoke(command_line(), words, prog_name="evenstand", **width)
        return done.exit_code, done.output

    return run


def lay(text, folder):
    """Write a block that names its file into the folder."""
    if name := re.match(r"# ([\w-]+\.toml)\n", text):
        (folder / name[1]).write_text(text, encoding="utf-8")


def check(command, shown, run):
    """Run one command of a page and compare what it prints."""
    if command.startswith("make "):
        assert re.search(rf"^{command.split()[1]}:", (ROOT / "Makefile").read_text(), re.MULTILINE)
    if not command.startswith("evenstand "):
        return
    code, printed = run(command)
    assert code == 0 or (code == 2 and shown.strip()), printed
    if shown.strip():
        assert printed.rstrip().splitlines() == shown.rstrip().splitlines()


@EACH_PAGE
def test_links_lead_somewhere(page):
    assert list(broken_links(page)) == []


@EACH_PAGE
def test_commands_print_what_is_shown(page, tmp_path, run):
    for kind, text in blocks(page, "console", "toml"):
        if kind == "toml":
            lay(text, tmp_path)
            continue
        for command, shown in commands(text):
            check(command, shown, run)


@EACH_PAGE
def test_python_examples_run(page):
    text = "\n".join(block for _, block in blocks(page, "pycon", "python") if ">>> " in block)
    example = doctest.DocTestParser().get_doctest(text, {}, page.name, str(page), 0)
    assert doctest.DocTestRunner(verbose=False).run(example).failed == 0


def test_a_broken_link_is_found(tmp_path):
    page = tmp_path / "page.md"
    page.write_text("# One two\n[a](#one-two) [b](#three) [c](gone.md) [d](page.md#one-two)\n")
    assert list(broken_links(page)) == ["#three", "gone.md"]


def test_a_console_block_is_read():
    text = "$ evenstand calibrate \\\n  heron.toml\nMove the lever\nto 15\n$ make run\n"
    read = [(" ".join(command.split()), shown) for command, shown in commands(text)]
    assert read == [("evenstand calibrate heron.toml", "Move the lever\nto 15\n"), ("make run", "")]
