"""The time of a command in the terminal against that of Python loading click, and nothing else.

Everything is a ratio of processor time within one run on one machine: the median over so many
processes of each kind, in turns, so that other work on it does little harm. What each command does
stands in docs/cli.md, with the files it reads.
"""

import contextlib
import os
import re
import shlex
import subprocess
import sys
import tempfile
from pathlib import Path
from statistics import median

PAGE = Path(__file__).parents[1] / "docs/cli.md"
FILE = re.compile(r"^```toml\n# ([\w-]+\.toml)\n(.*?)^```$", re.DOTALL | re.MULTILINE)
RUNS = 15
TURNS = 'turns --rows 24 --spacing "7.5 in" --rolled "95 in" --area "1/20 ac"'
COMMANDS = (
    "--help",
    TURNS,
    f"{TURNS} --json",
    'catch --rows 24 --spacing "7.5 in" --area "1 ac" --net "60 lb"',
    'rows --weights "22, 23, 22, 24 g"',
    'tag --purity "98 %" --germination "92 %"',
    "species hairy vetch",
    "mix alder-bench.toml",
    "boxes alder-bench.toml",
    "order alder-bench.toml",
    "set heron.toml",
    "sow on-the-way.toml",
    "stand counts.toml",
)
PEER = ("-c", "import click")


def seconds(*arguments: str) -> float:
    """Processor time of one Python process. [s]"""
    process = subprocess.Popen([sys.executable, *arguments], stdout=subprocess.DEVNULL)
    _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    assert process.returncode == 0, arguments
    return used.ru_utime + used.ru_stime


def main(runs: int = RUNS) -> None:
    """Print a table of commands."""
    times: dict[tuple[str, ...], list[float]] = {PEER: []}
    times |= {("-m", "evenstand", *shlex.split(each)): [] for each in COMMANDS}
    with tempfile.TemporaryDirectory() as folder, contextlib.chdir(folder):
        for name, content in FILE.findall(PAGE.read_text(encoding="utf-8")):
            Path(name).write_text(content, encoding="utf-8")
        for _ in range(runs + 1):
            for arguments, found in times.items():
                found.append(seconds(*arguments))
    click, *others = (median(found[1:]) for found in times.values())  # the first fills the caches
    print(f"Processor time ÷ that of `python -c 'import click'`, median of {runs}\n")
    print("| command | times click |\n|---|---|")
    for command, took in zip(COMMANDS, others, strict=True):
        print(f"| `evenstand {command}` | {took / click:.1f} |")


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
