"""How long tests of faults go on, and what they have tried: TIMES=20 is twenty times as long."""

import os
from collections import Counter

TIMES = int(os.environ.get("TIMES", "1"))
TRIED: Counter[str] = Counter()


def tried(what, number=1):
    """Count what was tried, for the table at the end of a long run."""
    TRIED[what] += number
