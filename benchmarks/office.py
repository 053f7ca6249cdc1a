"""How long phones take to hand over what they wrote, all at once, to an office on this computer."""

import json
import re
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from http.client import HTTPConnection
from pathlib import Path
from time import perf_counter

from evenstand.book.kinds.work import Note
from evenstand.book.opening import open_book

PHONES, ENTRIES, AT_ONCE = 50, 200, 20


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


def main():
    with tempfile.TemporaryDirectory() as folder:
        where = Path(folder) / "book"
        with open_book(where, device="shed", who="Ada") as book:
            codes = [book.devices.offer(account=None, who="Ada") for _ in range(PHONES)]
            of = book.new_id()
        run = [sys.executable, "-m", "evenstand", "serve", "--port", "0", "--no-browser"]
        with subprocess.Popen([*run, "--book", str(where)], stdout=subprocess.PIPE) as office:
            port = int(re.search(rb":(\d+)/", office.stdout.readline())[1])
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
            office.terminate()
        with open_book(where, device="shed") as book:
            kept = book.counts().get("note", 0)
    lost = PHONES * ENTRIES - kept
    print(f"{PHONES} phones × {ENTRIES} entries: {took:.1f} s, {lost} lost")


if __name__ == "__main__":
    main()
