"""Where the book lies: the folders that each system itself names."""

from pathlib import Path, PurePosixPath

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenstand.book.log.stamp import Stamp
from evenstand.book.place import default_path, device_name

HOME = Path("/home/ada")


@pytest.mark.parametrize(
    ("platform", "environ", "path"),
    [
        ("linux", {}, "/home/ada/.local/share/evenstand/book.evenstand"),
        ("linux", {"XDG_DATA_HOME": "/data"}, "/data/evenstand/book.evenstand"),
        ("linux", {"XDG_DATA_HOME": "data"}, "/home/ada/.local/share/evenstand/book.evenstand"),
        ("darwin", {}, "/home/ada/Library/Application Support/Evenstand/book.evenstand"),
        ("win32", {}, "/home/ada/AppData/Roaming/Evenstand/book.evenstand"),
        ("win32", {"APPDATA": "/roaming"}, "/roaming/Evenstand/book.evenstand"),
    ],
)
def test_each_system_has_its_place(platform, environ, path):
    found = default_path(platform=platform, environ=environ, home=HOME)
    assert PurePosixPath(found.as_posix()) == PurePosixPath(path)


@given(st.text())
def test_any_host_makes_a_device_that_can_stand_in_a_stamp(host):
    assert Stamp(0, 0, device_name(host))
