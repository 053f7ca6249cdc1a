"""The pages over a growing book: the time of each against an empty Flask page, and the memory.

Everything is a ratio of processor time within one run on one machine, so that other work on it
does little harm. The full book has 2,000 jobs, 300 drills and
40,000 catches, written through the Book into a folder of the run; a quarter of the jobs are of one
drill, closed and counted; each has a mix of two. What writing costs against bare sqlite3 is
measured by `benchmarks/book.py`.
"""

import gc
import resource
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from statistics import median

from flask import Flask

from evenstand.book.book import Book
from evenstand.book.kinds.machine import Box, Chart, ChartPoint, Drill, Scale
from evenstand.book.kinds.seed import Lot, Member, Mix, Tag
from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.sown import Finished, Left, Load
from evenstand.book.kinds.work import (
    Bag,
    Catch,
    Chosen,
    Field,
    InBox,
    Job,
    Place,
    Seen,
    Split,
    StandCount,
    Wanted,
)
from evenstand.book.opening import open_book
from evenstand.web.run.app import create_app

SIZES = (1, 10, 100, 2000)  # jobs
CATCHES_PER_JOB, JOBS_PER_DRILL, FIELDS_PER_JOB = 20, 7, 4
OF_ONE_DRILL = 4  # every fourth job is of the first drill
RUNS, MOST_SECONDS = 25, 4.0
RATE = 60 * 0.45359237 / 4046.8564224  # kg/m²: 60 lb/ac
LEFT_OUT = ("static", "book.export", "people.leave")


def typed(value: float, text: str) -> Typed:
    """An amount as somebody wrote it."""
    return Typed(value=value, text=text)


FIELD = typed(155_804.0, "38.5 ac")


def drill(n: int) -> Drill:
    """A drill of 20 rows at 7.5 in."""
    return Drill(
        name=f"Drill {n}",
        rows=20,
        spacing=typed(0.1905, "7.5 in"),
        scale=Scale(low=0, high=100),
        rolled=typed(2.413, "95 in"),
        boxes=(Box(name="grain"),),
    )


def chart(drill: str) -> Chart:
    """Its chart: 1.8 lb/ac a notch."""
    rates = [(20, 36), (30, 54), (40, 72)]
    points = [
        ChartPoint(setting=at, rate=typed(rate / 60 * RATE, f"{rate} lb/ac")) for at, rate in rates
    ]
    return Chart(drill=drill, points=tuple(points), seed="rye")


def catches(book: Book, job: str, drill: str) -> Iterator[str]:
    """Twenty catches, as a job has that was set with care."""
    for n in range(CATCHES_PER_JOB):
        weight = 1.0 + 0.01 * (n * 7 % 11 - 5)
        body = Catch(
            job=job,
            drill=drill,
            setting=30 + n % 5,
            turns=typed(20, "20"),
            bags=(Bag(weight=typed(weight * (1 + 0.033 * (n % 5)), "1000 g"), rows=20),),
        )
        yield book.add(body).about


def sown(book: Book, job: str) -> None:
    """A field that was sown and closed."""
    for acres in (0, 12, 24):
        at = typed(acres * 4046.8564224, f"{acres} ac")
        book.add(Load(job=job, at=at, weight=typed(400.0, "400 kg")))
    left = Left(weight=typed(200.0, "200 kg"))
    book.add(Finished(job=job, at=FIELD, left=(left,), soil="firm"))


def mixed(book: Book, lot: str, vetch: str) -> str:
    """Rye and vetch, so much PLS of each."""
    rates = {"Cereal rye": (lot, 50.0), "Hairy vetch": (vetch, 10.0)}
    members = [
        Member(name=name, basis="pls", rate=typed(rate / 60 * RATE, f"{rate} lb/ac"), lot=of)
        for name, (of, rate) in rates.items()
    ]
    return book.add(Mix(name="Cover", members=tuple(members))).about


def counted(book: Book, job: str) -> None:
    """Eight places of three feet of row, both species told apart."""
    places = [
        Place(
            length=typed(0.9144, "3 ft"),
            plants=(
                Seen(species="Cereal rye", plants=30 + n % 7),
                Seen(species="Hairy vetch", plants=4 + n % 3),
            ),
        )
        for n in range(8)
    ]
    book.add(StandCount(job=job, places=tuple(places), day="2026-10-10"))


def shelf(book: Book, fields: int) -> tuple[list[str], list[str], list[str]]:
    """Fields, each with a lot and a mix of it with one lot of vetch."""
    tag = Tag(purity=0.985, germination=0.91, tested="2026-08")
    vetch = book.add(Lot(species="Hairy vetch", name="lot", tag=tag)).about
    lots = [
        book.add(Lot(species="Cereal rye", name=f"lot {n}", tag=tag)).about for n in range(fields)
    ]
    made = [book.add(Field(name=f"Field {n}", area=FIELD)).about for n in range(fields)]
    return made, lots, [mixed(book, lot, vetch) for lot in lots]


def fill(book: Book, jobs: int) -> dict[str, str]:
    """Write so many jobs with all that belongs to them; gives the ids of some in the middle."""
    book._store._sqlite.execute("PRAGMA synchronous = OFF")
    drills = [book.add(drill(n)).about for n in range(max(1, jobs // JOBS_PER_DRILL))]
    made = {id: book.add(chart(id)).about for id in drills}
    count = max(1, jobs // FIELDS_PER_JOB)
    fields, lots, covers = shelf(book, count)
    found: dict[str, str] = {}
    for n in range(jobs):
        often = n % OF_ONE_DRILL == 0
        its = drills[0 if often else n % len(drills)]
        id = job(book, n, drill=its, field=fields[n % count], mix=covers[n % count])
        *_, catch = catches(book, id, its)
        if n % 2 or often:
            book.add(Chosen(job=id, drill=its, setting=33.0))
        if often and n + OF_ONE_DRILL < jobs:
            sown(book, id)
            counted(book, id)
        if n == jobs // 2 // OF_ONE_DRILL * OF_ONE_DRILL:
            found = {"job": id, "drill": its, "catch": catch, "chart": made[its]}
            found |= {"lot": lots[n % count], "thing": id, "step": "stand"}
    book._store._sqlite.execute("PRAGMA synchronous = FULL")
    return found


def job(book: Book, n: int, *, drill: str, field: str, mix: str) -> str:
    """One job, its mix in the drill's one box."""
    wanted = (Wanted(rate=typed(RATE, "60 lb/ac"), seed="rye"),)
    made = Job(name=f"Job {n}", drill=drill, field=field, mix=mix, wanted=wanted)
    id = book.add(made).about
    book.add(Split(job=id, boxes=(InBox(box="grain", members=("Cereal rye", "Hairy vetch")),)))
    return id


def addresses(app: Flask, ids: dict[str, str]) -> dict[str, str]:
    """Every page whose address can be written with these ids."""
    to = app.url_map.bind("localhost")
    return {
        rule.endpoint: to.build(rule.endpoint, {name: ids[name] for name in rule.arguments})
        for rule in sorted(app.url_map.iter_rules(), key=lambda rule: rule.rule)
        if "GET" in (rule.methods or ())
        and rule.endpoint not in LEFT_OUT
        and rule.arguments <= set(ids)
    }


def seconds(work: Callable[[], object]) -> float:
    """Median time of a call, over fewer calls where they are long."""
    work()
    times: list[float] = []
    end = time.perf_counter() + MOST_SECONDS
    while len(times) < RUNS and time.perf_counter() < end:
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return median(times)


def empty_page() -> float:
    """Time of a Flask page that says nothing: the mean of many, for it is short."""
    app = Flask("empty")
    app.add_url_rule("/", view_func=lambda: "")
    client = app.test_client()
    return seconds(lambda: [client.get("/") for _ in range(100)]) / 100


def measured(path: Path, jobs: int) -> tuple[dict[str, float], float]:
    """Time of each page ÷ that of an empty one, and bytes of the book's file."""
    with open_book(path, device="bench", who="Ada") as book:
        ids = fill(book, jobs)
        app = create_app(book)
        client = app.test_client()
        found: dict[str, float] = {}
        empty = empty_page()
        for endpoint, address in addresses(app, ids).items():
            answer = client.get(address)
            if answer.status_code == 200 and answer.mimetype == "text/html":
                found[endpoint] = seconds(lambda address=address: client.get(address)) / empty
    gc.collect()
    return found, path.stat().st_size / 1e6


def memory() -> float:
    """Most memory this process has held so far, in MB."""
    held = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return held / (1e6 if sys.platform == "darwin" else 1e3)


def main(sizes: tuple[int, ...] = SIZES) -> None:
    """Print a table of pages, and what the book and the process come to."""
    columns: list[dict[str, float]] = []
    with tempfile.TemporaryDirectory() as folder:
        for jobs in sizes:
            times, file = measured(Path(folder) / f"{jobs}.book", jobs)
            columns.append(times)
            print(
                f"{jobs} jobs: file {file:,.1f} MB, process at most {memory():,.0f} MB", flush=True
            )
    print("\nProcessor time of a page ÷ that of an empty Flask page\n")
    print("| page | " + " | ".join(f"{jobs:,} jobs" for jobs in sizes) + " | last ÷ first |")
    print("|---" * (len(sizes) + 2) + "|")
    for page in sorted(columns[-1], key=lambda page: -columns[-1][page]):
        cells = [column.get(page, float("nan")) for column in columns]
        shown = " | ".join(f"{cell:,.1f}" for cell in cells)
        print(f"| {page} | {shown} | {cells[-1] / cells[0]:.1f} |")


if __name__ == "__main__":
    main(tuple(int(text) for text in sys.argv[1:]) or SIZES)
