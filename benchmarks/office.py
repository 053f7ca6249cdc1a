"""An office asked by many: phones that hand over at once, and pages beside an export.

How long phones take to hand over what they wrote, all together; and how long people at 20 browsers
wait for a page of a book of 2,000 jobs while it is exported and looked over for damage, against the
same without.
"""

import json
import re
import runpy
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from functools import partial
from http.client import HTTPConnection
from pathlib import Path
from statistics import quantiles
from threading import Event
from time import perf_counter

from evenstand.book.kinds.work import Note
from evenstand.book.opening import open_book

PHONES, ENTRIES, AT_ONCE = 50, 200, 20
PEOPLE, ASKED, JOBS = 20, 200, 2000
LONG = ("/api/export", "/api/check")
ADDRESS = re.compile(rb":(\d+)/")


def post(port, path, document, *, key=""):
    connection = HTTPConnection("127.0.0.1", port, timeout=120)
    headers = {"Content-Type": "application/json", "Authorization": f"Bearer {key}"}
    connection.request("POST", path, json.dumps(document), headers)
    answer = json.loads(connection.getresponse().read())
    connection.close()
    return answer


def hand_over(port, key, texts):
    """Send all in batches, and take what the others wrote."""
    place = {"cursor": 0, "mark": ""}
    more = True
    while texts or more:
        batch, texts = texts[:AT_ONCE], texts[AT_ONCE:]
        told = post(port, "/exchange", {**place, "entries": batch}, key=key)
        place, more = {name: told[name] for name in ("cursor", "mark")}, told["more"]


@contextmanager
def office(where):
    """Serve a book; gives the port."""
    run = [sys.executable, "-m", "evenstand", "serve", "--port", "0", "--no-browser"]
    with subprocess.Popen([*run, "--book", str(where)], stdout=subprocess.PIPE) as serving:
        yield int(next(found[1] for line in serving.stdout if (found := ADDRESS.search(line))))
        serving.terminate()


def many_phones(folder):
    """Let phones hand over all at once; prints the time and what was lost."""
    where = folder / "book"
    with open_book(where, device="shed", who="Ada") as book:
        codes = [book.devices.offer(account=None, who="Ada") for _ in range(PHONES)]
        of = book.new_id()
    with office(where) as port:
        paired = [post(port, "/exchange/pair", {"code": c, "name": "phone"}) for c in codes]
        written = []
        for each in paired:
            with open_book(":memory:", device=each["device"], who="Ada") as phone:
                notes = [Note(of=of, text=f"{n}") for n in range(ENTRIES)]
                written.append([phone.add(note).text for note in notes])
        began = perf_counter()
        with ThreadPoolExecutor(PHONES) as pool:
            keys = [each["key"] for each in paired]
            list(pool.map(hand_over, [port] * PHONES, keys, written))
        took = perf_counter() - began
    with open_book(where, device="shed") as book:
        kept = book.counts().get("note", 0)
    lost = PHONES * ENTRIES - kept
    print(f"{PHONES} phones × {ENTRIES} entries: {took:.1f} s, {lost} lost")


def asked(port, address):
    """How long an answer takes. [s]"""
    began, connection = perf_counter(), HTTPConnection("127.0.0.1", port, timeout=600)
    connection.request("GET", address)
    answer = connection.getresponse()
    while answer.read(1 << 20):
        pass
    connection.close()
    return perf_counter() - began


def waited(port, job):
    """What 19 of 20 pages take at most, asked by as many people at once. [s]"""
    pages = ["/", "/drills", "/seed", f"/jobs/{job}", f"/jobs/{job}/calibrate"] * (ASKED // 5)
    with ThreadPoolExecutor(PEOPLE) as pool:
        return quantiles(pool.map(partial(asked, port), pages), n=20)[-1]


def pages_beside_long_readers(folder):
    """Print what people wait for a page, alone and beside an export and a check."""
    where, write = (
        folder / "full",
        runpy.run_path(str(Path(__file__).with_name("pages.py")))["fill"],
    )
    with open_book(where, device="shed", who="Ada") as book:
        write(book, JOBS)
        job = book.things("job", limit=1)[0].id
    with office(where) as port:
        waited(port, job)
        alone = waited(port, job)
        with ThreadPoolExecutor(2) as pool:
            ended = Event()

            def again(address):
                while not ended.is_set():
                    asked(port, address)

            long = [pool.submit(again, each) for each in LONG]
            beside = waited(port, job)
            ended.set()
            for each in long:
                each.result()
    print(f"a page, 95 of 100, {PEOPLE} people, {JOBS:,} jobs: {alone:.2f} s alone,", end=" ")
    print(f"{beside:.2f} s beside an export and a check: {beside / alone:.1f} times")


def main():
    with tempfile.TemporaryDirectory() as folder:
        many_phones(Path(folder))
        pages_beside_long_readers(Path(folder))


if __name__ == "__main__":
    main()
