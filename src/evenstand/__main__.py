"""Start Evenstand: ``python -m evenstand`` or the command ``evenstand``."""

import sys
from io import TextIOWrapper


def main() -> None:
    """Run the command line; what it draws is UTF-8 wherever it goes."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(encoding="utf-8")
    _load_uncertainties_alone()
    from evenstand.compose import command_line

    command_line().main(prog_name="evenstand")


def _load_uncertainties_alone() -> None:
    """Keep uncertainties from loading numpy, which takes longer than a short command.

    It would take numpy's numbers for constants; they are `numbers.Number` all the same, as all
    constants are to it. The solver still loads numpy when it is asked for.
    """
    loaded = "numpy" in sys.modules
    sys.modules.setdefault("numpy", None)  # type: ignore[arg-type]
    import uncertainties  # noqa: F401

    if not loaded:
        del sys.modules["numpy"]


if __name__ == "__main__":
    main()
