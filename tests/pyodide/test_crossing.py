"""The bridge in the browser's Python, called from JavaScript."""

import json

import pytest

TOLD = {"HTTP_X_A": None, "HTTP_HOST": "localhost", "PATH_INFO": "/", "read": []}
WITH_HEADER = TOLD | {"HTTP_X_A": "é"}
WITH_BYTES = TOLD | {"read": [97, 0, 255]}
SEEN = {
    "nothing": TOLD,
    "undefined": TOLD,
    "null": TOLD,
    "empty": TOLD,
    "headers": WITH_HEADER,
    "pairs": WITH_HEADER,
    "map": WITH_HEADER,
    "object": WITH_HEADER,
    "bytes": WITH_BYTES,
    "buffer": WITH_BYTES,
    "text": TOLD | {"read": [97, 0xC3, 0xA9]},  # aé in UTF-8
    "url": TOLD | {"HTTP_HOST": "farm.example", "PATH_INFO": "/a"},
    "response": [200, "application/json", "Uint8Array"],
}


@pytest.fixture(scope="module")
def seen(pyodide):
    done = pyodide("crossing.py")
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


@pytest.mark.parametrize("call", SEEN)
def test_what_javascript_hands_over_arrives(seen, call):
    assert seen[call] == SEEN[call]
