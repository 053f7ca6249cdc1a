"""The results of every case, as hexadecimal floats; as a program, in JSON."""

import json
import runpy
import sys
from pathlib import Path

CASES = runpy.run_path(str(Path(__file__).with_name("cases.py")))["CASES"]


def table() -> dict[str, list[str]]:
    """Compute every case here."""
    return {name: [float(x).hex() for x in compute()] for name, compute in CASES.items()}


if __name__ == "__main__":
    sys.stdout.write(json.dumps(table()) + "\n")
