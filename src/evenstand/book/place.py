"""Where a person's book lies, and what a device is called in it."""

import os
import re
import sys
from collections.abc import Mapping
from pathlib import Path


def default_path(
    *,
    platform: str = sys.platform,
    environ: Mapping[str, str] = os.environ,
    home: Path | None = None,
) -> Path:
    """Return the book in a person's own data folder.

    Parameters
    ----------
    platform : str
        As ``sys.platform``.
    environ : mapping of str to str
        ``XDG_DATA_HOME`` moves the folder, on Windows ``APPDATA``.
    home : Path, optional
        The person's own folder, else that of whoever runs the program.

    References
    ----------
    XDG Base Directory Specification 0.8: $HOME/.local/share where XDG_DATA_HOME
    is not set or not absolute.
    """
    home = home or Path.home()
    if platform == "win32":
        folder = Path(environ.get("APPDATA") or home / "AppData" / "Roaming") / "Evenstand"
    elif platform == "darwin":
        folder = home / "Library" / "Application Support" / "Evenstand"
    else:
        given = Path(environ.get("XDG_DATA_HOME", ""))
        folder = (given if given.is_absolute() else home / ".local" / "share") / "evenstand"
    return folder / "book.evenstand"


def device_name(host: str) -> str:
    """Make a device's name of its host's, as it can stand in a stamp.

    Examples
    --------
    >>> device_name("Ada's Laptop.local"), device_name("")
    ('ada-s-laptop-local', 'device')
    """
    return re.sub(r"[^a-z0-9]+", "-", host.lower()).strip("-")[:40].rstrip("-") or "device"
