"""Our mix solver against SciPy's milp: the same optimum, and how long each takes.

Both stand on HiGHS, in releases of their own. SciPy gets another formulation
of the same random problems, laid out and solved; ours also prices every limit
that binds and settles ties, which is what a person waits for.
"""

import importlib.util
import sys
from pathlib import Path
from statistics import median
from time import perf_counter

from evenstand.office.build import lay_out
from evenstand.office.clash import Clash
from evenstand.office.highs import Program
from evenstand.office.solver import solve

SIZES = (5, 10, 20, 30, 60)
BAGS = (None, 50.0, 25.0, 10.0)  # kg
PROBLEMS = range(2000, 2008)
# The formulation for SciPy is the one that the tests compare with.
PEER = Path(__file__).parents[1] / "tests/office/conftest.py"


def peer():
    spec = importlib.util.spec_from_file_location("office_peer", PEER)
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


def timed(call):
    start = perf_counter()
    result = call()
    return result, perf_counter() - start


def optimum(asked):
    """Lay out and solve, no more."""
    layout = lay_out(
        asked.offers, asked.limits, asked.goal, area=asked.area, least_seeds=1.0, tight=True
    )
    return Program(layout.columns, layout.rows, seconds=60.0).solve()


def one(asked, other):
    """Seconds of ours, of ours whole, and of SciPy's; whether both say the same."""
    _, bare = timed(lambda: optimum(asked))
    found, whole = timed(lambda: solve(asked.offers, asked.limits, asked.goal, area=asked.area))
    least, theirs = timed(lambda: other(asked).solve())
    if isinstance(found, Clash) or least is None:
        return isinstance(found, Clash) and least is None, None
    return abs(found.objective - least) <= 1e-6 * abs(least) + 1e-9, (bare, whole, theirs)


def main() -> int:
    peers = peer()
    agreed = asked_in_all = 0
    print("species  bags     ours  with prices    SciPy  ours ÷ SciPy  slowest  clashes")
    for n in SIZES:
        for bag in BAGS:
            seconds = []
            for number in PROBLEMS:
                asked = peers.random_problem(number, n=n, whole=bag is not None, bag=bag)
                same, times = one(asked, peers.Peer)
                agreed, asked_in_all = agreed + same, asked_in_all + 1
                seconds += [times] if times else []
            bare, whole, theirs = (median(column) * 1e3 for column in zip(*seconds, strict=True))
            ratio = median(ours / other for ours, _, other in seconds)
            slowest = max(ours for _, ours, _ in seconds) * 1e3
            kind = "loose" if bag is None else f"{bag:.0f} kg"
            print(
                f"{n:7d}  {kind:>5}  {bare:5.0f} ms     {whole:5.0f} ms  {theirs:5.0f} ms"
                f"  {ratio:12.2f}  {slowest:4.0f} ms  {len(PROBLEMS) - len(seconds):7d}"
            )
    print(f"Same optimum, or no mix for both: {agreed} of {asked_in_all}.")
    return 0 if agreed == asked_in_all else 1


if __name__ == "__main__":
    sys.exit(main())
