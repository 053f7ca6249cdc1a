"""The pages, asked for as a browser asks, and a parser that sees what a person would."""

import builtins
import re
from html.parser import HTMLParser
from types import MappingProxyType
from urllib.parse import urlsplit

import pytest
from msgspec.structs import replace

from evenstand.book.kinds.seed import Lot, Mix, Tag
from evenstand.book.kinds.shape import Typed
from evenstand.book.opening import open_book
from evenstand.engine.seed.tag import Month


class Page(HTMLParser):
    """A page as its reader meets it: text, links, fields, what is wrong at which field."""

    def __init__(self, answer):
        super().__init__()
        self.code, self.html, self.headers = answer.status_code, answer.text, answer.headers
        self.links, self.fields, self.wrong, self.ids = [], {}, {}, []
        self._words, self._field, self._wrong, self.lang = [], None, None, None
        self._chosen = self._bare = None
        self.feed(self.html)

    @property
    def text(self):
        return re.sub(r"\s+", " ", " ".join(self._words).replace("\u00a0", " ")).strip()

    def handle_starttag(self, name, attributes):
        tag = {key: value or "" for key, value in attributes}
        self.ids += [tag["id"]] if "id" in tag else []
        if "href" in tag and name == "a":
            self.links.append(tag["href"])
        if found := re.fullmatch(r"f-(.+)-wrong", tag.get("id", "")):
            self._wrong = found[1]
            self.wrong[self._wrong] = ""
        getattr(self, f"_{name}", lambda tag: None)(tag)

    def _html(self, tag):
        self.lang = tag["lang"]

    def _input(self, tag):
        if "name" in tag and ("checked" in tag or tag.get("type") not in ("radio", "checkbox")):
            self.fields.setdefault(tag["name"], tag.get("value", ""))

    def _textarea(self, tag):
        self._field = tag["name"]
        self.fields[self._field] = ""

    def _select(self, tag):
        self._chosen = tag["name"]

    def _datalist(self, tag):
        self._chosen = None

    def _option(self, tag):
        if self._chosen is None:
            self._bare = None
        elif self._chosen not in self.fields or "selected" in tag:
            self.fields[self._chosen] = tag.get("value")
            self._bare = self._chosen if "value" not in tag else None
        else:
            self._bare = None

    def handle_endtag(self, name):
        if name == "p":
            self._wrong = None
        if name == "textarea":
            self.fields[self._field] = self.fields[self._field].removeprefix("\n")
            self._field = None

    def handle_data(self, data):
        if self._wrong:
            self.wrong[self._wrong] += data.replace("\u00a0", " ")
        if self._field:
            self.fields[self._field] += data
        if self.lasttag == "option" and self._bare and data.strip():
            self.fields[self._bare], self._bare = data.strip(), None
        self._words.append(data)


class Visitor:
    """Someone with a browser, and the forms they fill in."""

    HERON = MappingProxyType(
        {
            "name": "Heron",
            "rows": "20",
            "spacing": "7.5",
            "spacing_unit": "in",
            "rolled": "95",
            "rolled_unit": "in",
            "scale_low": "0",
            "scale_high": "60",
            "scale_step": "1",
            "scale_slack": "below",
        }
    )
    # 1.8 lb/ac a notch: 30 gives 54.
    CHART = MappingProxyType({"points": "20\t36\n30\t54\n40\t72", "unit": "lb/ac", "seed": "rye"})
    JOB = MappingProxyType(
        {
            "name": "Alder Bench, fall",
            "field_name": "Alder Bench",
            "field_area": "38.5",
            "field_area_unit": "ac",
            "wanted1_rate": "54",
            "wanted1_rate_unit": "lb/ac",
            "wanted1_tolerance": "5",
            "wanted1_tolerance_unit": "%",
            "speed": "5",
            "speed_unit": "mph",
        }
    )
    # 20 turns of 95 in under 20 rows at 7.5 in are 1979.2 ft² or 0.045437 ac: 48.6 lb/ac on
    # them weigh 35.33 oz, 53.5 lb/ac 38.89 oz.
    LIGHT = MappingProxyType(
        {"setting": "30", "turns": "20", "rows_caught": "20", "net": "35.33", "net_unit": "oz"}
    )
    GOOD = MappingProxyType(
        {"setting": "33", "turns": "20", "rows_caught": "20", "net": "38.89", "net_unit": "oz"}
    )

    def __init__(self, client, book):
        self.client, self.book = client, book

    def read(self, path, code=200, **headers):
        page = Page(self.client.get(path, headers=headers))
        assert page.code == code, page.text
        return page

    def send(self, path, fields, code=303):
        """Send a form; gives where it leads, or the page where it is refused."""
        fields = {"entry": self.book.new_id(), **fields}
        answer = self.client.post(path, data=fields)
        assert answer.status_code == code, Page(answer).text
        return (
            urlsplit(answer.location)._replace(fragment="").geturl()
            if code == 303
            else Page(answer)
        )

    def heron(self, **changes):
        """A drill with its chart."""
        drill = self.send("/drills/new", {**self.HERON, **changes})
        self.send(f"{drill}/charts/new", self.CHART)
        return drill

    def job(self, **changes):
        """A job with the drill Heron, which is made once."""
        made = [drill.id for drill in self.book.things("drill") if drill.body.name == "Heron"]
        drill = made[0] if made else self.heron().rsplit("/", 1)[1]
        return self.send("/jobs/new", {**self.JOB, "drill": drill, **changes})

    def mix(self, job, *lines, code=303, **more):
        """Send the form of a job's mix; a line is its seed, its number and its basis."""
        fields = {"name": "Fall cover", "job_entry": self.book.new_id(), "of": ""}
        for i, (seed, rate, basis) in enumerate(lines, 1):
            fields |= {f"line{i}_seed": seed, f"line{i}_rate": rate, f"line{i}_rate_basis": basis}
        return self.send(f"{job}/mix/edit", {**fields, **more}, code=code)


@pytest.fixture
def book():
    flask = pytest.importorskip("flask", reason="the pages need Flask")
    assert flask
    with open_book(":memory:", device="shed", who="Ada") as opened:
        yield opened


@pytest.fixture(scope="session")
def compiled(tmp_path_factory):
    """Where templates lie compiled, once for the apps of all tests."""
    from jinja2 import FileSystemBytecodeCache

    return FileSystemBytecodeCache(tmp_path_factory.mktemp("templates"))


@pytest.fixture
def client(book, compiled):
    from evenstand.web.run.app import create_app

    app = create_app(book)
    app.jinja_env.bytecode_cache = compiled
    app.testing = True
    return app.test_client()


@pytest.fixture
def visitor(client, book):
    return Visitor(client, book)


@pytest.fixture
def november(monkeypatch):
    """Judge every tag as of November 2026."""
    monkeypatch.setattr("evenstand.web.site.here.this_month", lambda: Month(2026, 11))


@pytest.fixture
def samples_mix(book):
    """Give a job a mix, as the step Mix does."""

    def give(job):
        mix = book.add(Mix(name="Fall cover")).about
        book.correct(job.id, replace(job.body, mix=mix))

    return give


def _lot(name, species, per_lb, **more):
    """A lot as its form keeps it; its tag says 98% pure, 90% germination."""
    tag = Tag(purity=0.98, germination=0.90, tested="2026-08")
    count = Typed(value=per_lb / 0.45359237, text=f"{per_lb} seeds/lb")
    known = {"name": name, "species": species, "tag": tag, "seeds_per_kg": count}
    return Lot(**{**known, **more})


@pytest.fixture
def shelf(book):
    """Keep a lot on the shelf; gives its id."""

    def put(name="R-26", species="cereal rye", per_lb=18_000, **more):
        return book.add(_lot(name, species, per_lb, **more)).about

    return put


@pytest.fixture
def cheap_passwords(monkeypatch):
    """Argon2 at the least cost."""
    argon2 = pytest.importorskip("argon2", reason="needs argon2-cffi")
    from evenstand.book.people import passwords

    least = argon2.PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)
    monkeypatch.setattr(passwords, "_hasher", lambda: least)


@pytest.fixture
def three(book, cheap_passwords):
    """Accounts of three people, by what each may do."""
    names = {"keeps": "Kim", "works": "Wim", "reads": "Rosa"}
    return {
        role: book.people.add(name, "rain on dry clods", role=role) for role, name in names.items()
    }


@pytest.fixture
def signed_in(client, book, three):
    """Sign in with a role, as ``signed_in("works")``."""

    def sign_in(role):
        client.set_cookie("session", book.people.begin(three[role].id))
        return client

    return sign_in


@pytest.fixture
def without(monkeypatch):
    """Let the solver miss a module."""
    real = builtins.__import__

    def take_away(missing):
        def load(name, *rest, **more):
            if name == "evenstand.tasks.mix.solving":
                raise ModuleNotFoundError(f"No module named {missing!r}", name=missing)
            return real(name, *rest, **more)

        monkeypatch.setattr(builtins, "__import__", load)

    return take_away
