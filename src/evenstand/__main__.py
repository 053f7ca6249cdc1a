"""Start Evenstand: ``python -m evenstand`` or the command ``evenstand``."""

import sys
from io import TextIOWrapper

from evenstand.compose import command_line


def main() -> None:
    """Run the command line; what it draws is UTF-8 wherever it goes."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(encoding="utf-8")
    command_line().main(prog_name="evenstand")


if __name__ == "__main__":
    main()
