"""Compare what two checkouts show: every page, file and API answer of the demo book, every command.

    python tools/same_bytes.py OLD_CHECKOUT NEW_CHECKOUT

Each checkout opens a demo book under a clock that stands still, follows every link from the start
page in both languages and both systems of units, and runs every command of docs/cli.md, as shown
and with ``--json``. What differs is listed; the exit code is 1 then.
"""

import contextlib
import hashlib
import io
import json
import os
import re
import shlex
import subprocess
import sys
import tempfile
from functools import partial
from pathlib import Path
from random import Random
from urllib.parse import urldefrag, urljoin, urlsplit
from zipfile import ZipFile

NOW = 1_795_568_400_000  # ms: 2026-11-25 01:00 UTC
READERS = ({"language": "en", "units": "us"}, {"language": "es", "units": "metric"})
LINK = re.compile(rb'(?:href|src|hx-get)="([^"#][^"]*)"')
COMMAND = re.compile(r"^\$ (evenstand .+)$", re.MULTILINE)
FILE = re.compile(r"^```toml\n# ([\w-]+\.toml)\n(.*?)^```$", re.DOTALL | re.MULTILINE)
FIXED = ("/static/", "/phone/", "/offline")
AT_MOST = 3000
# What a run or a release leaves in an answer, and says nothing of the product.
NOISE = (
    (re.compile(rb"/CreationDate \(.*?\)|/ModDate \(.*?\)"), b""),
    (re.compile(rb"<xmp:(Create|Modify)Date>.*?<"), b"<"),
    (re.compile(rb"/ID \[.*?\]|<xmpMM:\w+>.*?<", re.DOTALL), b""),
)


def pages() -> dict[str, str]:
    """Return the hash of every answer of the demo book, by reader and address."""
    try:
        from evenstand.web.run.app import create_app
    except ImportError:
        from evenstand.web.app import create_app  # type: ignore[import-not-found,no-redef]
    from evenstand.book.opening import open_book
    from evenstand.demo.book import fill

    luck = Random(0)
    open_still = partial(open_book, clock=lambda: NOW, random=luck.randbytes)
    found = {}
    with open_still(":memory:", device="shed", who="Ada") as book:
        fill(book)
        app = create_app(book)
        for reader in READERS:
            client = app.test_client()
            for name, value in reader.items():
                client.set_cookie(name, value)
            found |= {f"{reader['language']} {at}": told for at, told in crawl(client)}
    return found


def crawl(client):  # type: ignore[no-untyped-def]
    """Yield every address that links lead to from the start, and the hash of its answer."""
    waiting, seen = ["/", "/api/openapi.json"], set()
    while waiting and len(seen) < AT_MOST:
        at = waiting.pop(0)
        if at in seen or at.startswith(FIXED):
            continue
        seen.add(at)
        answer = client.get(at)
        yield at, f"{answer.status_code} {digest(answer.data)}"
        if "html" in (answer.content_type or ""):
            waiting += sorted(links(at, answer.data) - seen)
        if at.endswith("openapi.json"):
            waiting += sorted(of_api(client, answer.data) - seen)


def links(at: str, page: bytes) -> set[str]:
    """Return the addresses of this site that a page leads to."""
    texts = (each[1].decode().replace("&amp;", "&") for each in LINK.finditer(page))
    found = (urldefrag(urljoin(f"http://localhost{at}", text))[0] for text in texts)
    return {
        parts.path + (f"?{parts.query}" if parts.query else "")
        for parts in map(urlsplit, found)
        if parts.netloc == "localhost"
    }


def of_api(client, document: bytes) -> set[str]:  # type: ignore[no-untyped-def]
    """Return the addresses of the API: those that take nothing, and all of every job and drill."""
    paths = [f"/api{at}" for at, ways in json.loads(document)["paths"].items() if "get" in ways]
    found = {path for path in paths if "{" not in path}
    for kind in ("job", "drill", "lot"):
        told = client.get(f"/api/things?kind={kind}").get_json() or {}
        ids = re.findall(r"'id': '([^']+)'", repr(told))
        found |= {re.sub(r"\{\w+\}", each, path) for path in paths if "{" in path for each in ids}
    return found


def digest(data: bytes) -> str:
    """Return a hash of what does not change from run to run."""
    for pattern, instead in NOISE:
        data = pattern.sub(instead, data)
    if data[:2] == b"PK":
        return "zip " + zipped(data)
    return hashlib.sha256(data).hexdigest()[:16]


def zipped(data: bytes) -> str:
    """Return a hash of the files in a ZIP, without what tells the hour it was made."""
    with ZipFile(io.BytesIO(data)) as file:
        parts = {n: file.read(n) for n in file.namelist() if not n.startswith("docProps")}
    return hashlib.sha256(repr(sorted(parts.items())).encode()).hexdigest()[:16]


def commands(page: Path) -> dict[str, str]:
    """Return the hash of what every command on a page prints, as shown and as JSON."""
    from click.testing import CliRunner

    from evenstand.compose import command_line

    found, text = {}, page.read_text(encoding="utf-8")
    with tempfile.TemporaryDirectory() as folder, contextlib.chdir(folder):
        for name, content in FILE.findall(text):
            Path(name).write_text(content, encoding="utf-8")
        for shown in COMMAND.findall(text):
            for words in (shlex.split(shown)[1:], [*shlex.split(shown)[1:], "--json"]):
                told = CliRunner().invoke(command_line(), words)
                found[shlex.join(["$", *words])] = (
                    f"{told.exit_code} {digest(told.output.encode())}"
                )
    return found


def gather(checkout: str, page: Path) -> dict[str, str]:
    """Ask a checkout, in a process of its own; the commands are those of one page for both."""
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "found.json"
        env = {**os.environ, "PYTHONPATH": str(Path(checkout).resolve() / "src"), "COLUMNS": "80"}
        subprocess.run(
            [sys.executable, __file__, "--ask", str(page), str(out)], env=env, check=True
        )
        return json.loads(out.read_text())


def main() -> int:
    """Compare two checkouts; ``--ask`` is one of them answering."""
    if sys.argv[1] == "--ask":
        page, out = Path(sys.argv[2]), Path(sys.argv[3])
        out.write_text(json.dumps(pages() | commands(page)))
        return 0
    page = Path(sys.argv[1]).resolve() / "docs/cli.md"
    old, new = (gather(checkout, page) for checkout in sys.argv[1:3])
    differing = sorted(at for at in old.keys() | new.keys() if old.get(at) != new.get(at))
    for at in differing:
        sys.stdout.write(f"{at}\n    old {old.get(at)}\n    new {new.get(at)}\n")
    sys.stdout.write(f"{len(old)} answers before, {len(new)} after, {len(differing)} differ.\n")
    return bool(differing)


if __name__ == "__main__":
    raise SystemExit(main())
