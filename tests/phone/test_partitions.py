"""Phones and an office under any partition: all end alike, and nothing acknowledged is missing.

The pages answer through the bridge and the exchange is the office's own; only the few lines that
`phone/exchange.js` does in a browser are played here.
"""

import json
from itertools import count
from pathlib import Path
from tempfile import TemporaryDirectory
from urllib.parse import urlencode

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, rule

from evenstand.book.kinds.machine import Drill
from evenstand.book.kinds.shape import Typed
from evenstand.book.opening import open_book
from evenstand.web.phone import exchange
from evenstand.web.run.app import create_app
from evenstand.web.run.on_phone import Phone

FORM = {"Content-Type": "application/x-www-form-urlencoded"}
DRILL = {"rows": "20", "spacing": "7.5", "spacing_unit": "in"}
BATCH = 2
PHONES = st.integers(0, 2)
FATES = st.sampled_from(["arrives", "request lost", "answer lost", "sent twice"])
LISTS = ("/api/things?kind=drill&limit=100", "/api/things?kind=drill&limit=100&removed=yes")


class Carried:
    """A phone's log, and the Python that is put together from it."""

    def __init__(self, office, code):
        told = office.post("/exchange/pair", json={"code": code, "name": "p"}).json
        self.known = {name: told[name] for name in ("device", "who", "role")}
        self.key = {"Authorization": f"Bearer {told['key']}"}
        self.office, self.place, self.log, self.waiting = office, {"cursor": 0}, {}, {}
        self.start()

    def start(self):
        """Begin with what is in the log, as after a kill."""
        place = {"origin": "https://farm.example", "root": ""}
        self.python = Phone(**self.known, cookies="{}", **place)
        self.python.take(self.log.values())

    def send(self, path, fields, *, dies=False):
        """Send a form; a phone that dies before its log has it acknowledges nothing."""
        self.python.take(self.log.values())
        status, *_, written, _ = self.python.handle("POST", path, FORM, urlencode(fields))
        assert status == 303
        if dies:
            self.start()
            return []
        self.log |= dict(written)
        self.waiting |= dict(written)
        return [id for id, _ in written]

    def drills(self, which=0):
        self.python.take(self.log.values())
        return json.loads(self.python.handle("GET", LISTS[which])[2])

    def exchange(self, fate="arrives"):
        """Hand over and take in one batch; whether there is more to do."""
        batch = dict(list(self.waiting.items())[:BATCH])
        asked = self.place | {"entries": list(batch.values())}
        for _ in range({"request lost": 0, "sent twice": 2}.get(fate, 1)):
            answer = self.office.post("/exchange", json=asked, headers=self.key)
            assert answer.status_code == 200, answer.text
        if fate.endswith("lost"):
            return True
        if "anew" in answer.json:
            self.waiting, self.place = dict(self.log), {"cursor": 0}
            return True
        self.log |= {each["id"]: each["text"] for each in answer.json["entries"]}
        self.place = {name: answer.json[name] for name in ("cursor", "mark")}
        for id in batch:
            del self.waiting[id]
        return answer.json["more"] or bool(batch)


class Partitions(RuleBasedStateMachine):
    """Whatever three people write while the way to the office is good, bad or gone."""

    @initialize()
    def begin(self):
        self.folder = TemporaryDirectory()
        self.book, self.names = open_book(":memory:", device="shed"), count()
        office = create_app(self.book).test_client()
        codes = [self.book.devices.offer(account=None, who="Ada") for _ in range(3)]
        self.phones = [Carried(office, code) for code in codes]
        self.acknowledged = set()
        self.back_up()

    @rule()
    def back_up(self):
        self.copy = Path(self.folder.name) / f"{next(self.names)}.evenstand"
        self.book.backup(self.copy)

    @rule()
    def go_back(self):
        """The office loses its computer, and goes on with the copy."""
        self.book.close()
        self.book = open_book(self.copy, device="shed")
        self.back_up()
        for phone in self.phones:
            phone.office = create_app(self.book).test_client()

    @rule()
    def office_writes(self):
        """It is lost where the office goes back before a phone has heard of it."""
        self.book.add(Drill(name="Of the office", rows=20, spacing=Typed(value=0.19)))

    @rule(n=PHONES, dies=st.booleans())
    def write(self, n, dies):
        fields = DRILL | {"name": f"Drill {len(self.acknowledged)}"}
        self.acknowledged.update(self.phones[n].send("/drills/new", fields, dies=dies))

    @rule(n=PHONES, data=st.data(), gone=st.booleans())
    def change(self, n, data, gone):
        """Correct a drill that this phone knows, or take it off the list."""
        known = [each["id"] for each in self.phones[n].drills()["things"]]
        if known:
            path = f"/drills/{data.draw(st.sampled_from(sorted(known)))}"
            fields = {} if gone else DRILL | {"name": "Changed", "rows": "16"}
            sent = self.phones[n].send(path + ("/remove" if gone else "/edit"), fields)
            self.acknowledged.update(sent)

    @rule(n=PHONES, fate=FATES)
    def exchange(self, n, fate):
        self.phones[n].exchange(fate)

    @rule(n=PHONES)
    def kill(self, n):
        self.phones[n].start()

    def teardown(self):
        try:
            self.end_alike()
        finally:
            self.book.close()
            self.folder.cleanup()

    def end_alike(self):
        """The way is good again, long enough for each to hear of all."""
        for phone in [*self.phones, *self.phones]:
            while phone.exchange():
                pass
        with self.book.all_entries() as found:
            texts = {entry.id: entry.text for entry in found}
        assert self.acknowledged <= texts.keys()
        for phone in self.phones:
            assert phone.log == texts
            phone.start()
            for which, path in enumerate(LISTS):
                assert phone.drills(which) == phone.office.get(path).json


def test_all_end_alike(monkeypatch):
    from hypothesis.stateful import run_state_machine_as_test

    monkeypatch.setattr(exchange, "MOST_TAKEN", 3)
    few = settings(max_examples=15, stateful_step_count=25)
    run_state_machine_as_test(Partitions, settings=few)
