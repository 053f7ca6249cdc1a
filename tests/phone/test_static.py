"""The folder of `evenstand phone build`, shown by a host that knows nothing of it."""

import runpy
import subprocess
import sys
import urllib.request
from contextlib import suppress
from pathlib import Path
from time import sleep
from urllib.error import URLError

import pytest

from evenstand.web.phone.folder import write_folder

HERE = Path(__file__).parent
STEPS = runpy.run_path(str(HERE / "steps.py"))
CARRIED = runpy.run_path(str(HERE / "conftest.py"))
BASE = "/field/log/"


@pytest.fixture
def host(bundle, tmp_path):
    """Python's own file server, with the folder below a path; gives address and process."""
    write_folder(tmp_path / "root" / BASE.strip("/"), base=BASE, bundle=bundle)
    port = CARRIED["free_port"]()
    command = [sys.executable, "-m", "http.server", str(port), "--bind", "127.0.0.1"]
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    running = subprocess.Popen([*command, "--directory", str(tmp_path / "root")], **quiet)
    address = f"http://localhost:{port}"
    for _ in range(200):
        with suppress(URLError), urllib.request.urlopen(address):
            break
        sleep(0.05)
    yield address, running
    running.kill()
    running.wait()


def test_it_needs_no_program_behind_it(playwright, host, tmp_path):
    """First visit, then the host is gone: a drill, a reload, an address never seen before."""
    address, running = host
    phone = CARRIED["Carried"](playwright, tmp_path / "profile", address)
    try:
        page = phone.open()
        page.goto(BASE)
        page.get_by_role("link", name="New drill").wait_for()
        STEPS["ready"](page)
        running.kill()
        running.wait()
        phone.cut()
        page.get_by_role("link", name="New drill").click()
        STEPS["fill"](page, name="Plover", rows="24", spacing="5")
        STEPS["save"](page, "Save drill")
        page.get_by_role("heading", name="Plover", exact=True).wait_for()
        assert f"{BASE}drills/" in page.url
        page.get_by_text("1 entry is only on this phone").wait_for()
        page.reload()
        page.get_by_role("heading", name="Plover", exact=True).wait_for()
        page.goto(f"{BASE}seed/new")
        page.get_by_role("heading", name="New lot").wait_for()
    finally:
        phone.close()
