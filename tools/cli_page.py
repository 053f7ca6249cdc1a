"""Make docs/cli.md: the prose of tools/cli.md, and under each command what it prints."""

import contextlib
import os
import re
import shlex
import tempfile
from pathlib import Path

from click.testing import CliRunner

from evenstand.compose import command_line

ROOT = Path(__file__).parents[1]
PAGE, PROSE = ROOT / "docs/cli.md", ROOT / "tools/cli.md"
FILE = re.compile(r"^```toml\n# ([\w-]+\.toml)\n(.*?)^```$", re.DOTALL | re.MULTILINE)
COMMAND = re.compile(r"^\$ evenstand (.+)\n(?:(?!```).*\n)*", re.MULTILINE)
USAGE = re.compile(r"(?<=^```text\n)Usage: evenstand (\w+ \w+).*\n(?:(?!```).*\n)*", re.MULTILINE)
OWN_BOOK = re.compile(r"The book\.\s+\[default:[^]]*\]")  # a path of whoever runs this
TERMINAL = {"COLUMNS": "80", "NO_COLOR": "1"}
WIDTH = 78  # of help in 80 columns


def lay(text: str, folder: Path) -> None:
    """Write the files that a page shows into a folder."""
    for name, content in FILE.findall(text):
        (folder / name).write_text(content, encoding="utf-8")


def printed(match: re.Match[str]) -> str:
    """Return a command and what it prints."""
    return f"$ evenstand {match[1]}\n{output(match[1])}"


def usage(match: re.Match[str]) -> str:
    """Return the help of a command of a group, with no path of this computer in it."""
    return OWN_BOOK.sub(
        "Use this book instead of the one in your data folder.", output(f"{match[1]} --help")
    )


def output(command: str) -> str:
    """Return what a command prints in 80 columns."""
    done = CliRunner().invoke(
        command_line(), shlex.split(command), prog_name="evenstand", terminal_width=WIDTH
    )
    assert done.exit_code == 0, done.output
    return f"{done.output.rstrip()}\n"


def with_output(prose: str) -> str:
    """Return the page that a prose makes."""
    with tempfile.TemporaryDirectory() as folder, contextlib.chdir(folder):
        lay(prose, Path(folder))
        os.environ.update(TERMINAL, HOME=folder)
        return USAGE.sub(usage, COMMAND.sub(printed, prose))


def without_output(page: str) -> str:
    """Return the prose that a page was made of."""
    page = COMMAND.sub(lambda match: f"$ evenstand {match[1]}\n", page)
    return USAGE.sub(lambda match: f"Usage: evenstand {match[1]}\n", page)


if __name__ == "__main__":
    PAGE.write_text(with_output(PROSE.read_text(encoding="utf-8")), encoding="utf-8")
