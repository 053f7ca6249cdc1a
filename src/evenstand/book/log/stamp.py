"""When an entry was made, so that all devices agree on the order.

A hybrid logical clock (Kulkarni, Demirbas, Madappa, Avva and Leone, "Logical
physical clocks", OPODIS 2014): the time of the device's own clock, moved on
where an entry already seen is later, and a counter for what falls into one
millisecond.
"""

import re
from datetime import UTC, datetime, timedelta

import msgspec

from evenstand.engine.quantities.phrases import say

from ..errors import BookError

DEVICE = r"[a-z0-9][a-z0-9-]{0,39}"
STAMP = rf"\d{{4}}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{{3}}Z-[0-9a-f]{{4}}-{DEVICE}"
MOST_AHEAD = 24 * 3600 * 1000  # ms: later than that, a time seen is a wrong clock's
MOST_COUNTED = 0xFFFF

_WHOLE, _DEVICE = re.compile(STAMP, re.ASCII), re.compile(DEVICE)
_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_LATEST = (datetime(9999, 12, 31, tzinfo=UTC) - _EPOCH) // timedelta(milliseconds=1)
_MS = timedelta(milliseconds=1)


class Stamp(msgspec.Struct, frozen=True, order=True):
    """A time, a counter within its millisecond, and the device they come from.

    Stamps sort as their texts do.

    Parameters
    ----------
    ms : int
        Milliseconds since 1970, UTC.
    device : str
        Small letters, digits and hyphens.

    Raises
    ------
    BookError
        For a time outside 1970 to 9999, a counter that is used up, or a
        device that cannot stand in a stamp.

    Examples
    --------
    >>> str(Stamp(1_795_568_400_000, 1, "shed"))
    '2026-11-25T01:00:00.000Z-0001-shed'
    """

    ms: int
    counter: int
    device: str

    def __post_init__(self) -> None:
        if not 0 <= self.ms <= _LATEST:
            need = say("set this device's clock: the year must be between 1970 and 9999")
            raise BookError("clock", self.ms, need)
        if not 0 <= self.counter <= MOST_COUNTED:
            raise BookError("counter", self.counter, say("enter a number from 0 to 65,535"))
        if not _DEVICE.fullmatch(self.device):
            need = say("use lowercase letters, numbers and hyphens, 40 at most")
            raise BookError("device", self.device, need)

    def __str__(self) -> str:
        time = (_EPOCH + self.ms * _MS).isoformat(timespec="milliseconds")
        return f"{time.removesuffix('+00:00')}Z-{self.counter:04x}-{self.device}"

    def next(self, device: str) -> "Stamp":
        """Return the first stamp behind this one."""
        if self.counter < MOST_COUNTED:
            return Stamp(self.ms, self.counter + 1, device)
        return Stamp(self.ms + 1, 0, device)


def read_stamp(text: str) -> Stamp:
    """Read a stamp back from its text.

    Raises
    ------
    BookError
        For a text that is none.
    """
    need = say("enter it like 2026-11-25T01:00:00.000Z-0000-device")
    if not _WHOLE.fullmatch(text) or text[11:13] == "24":  # midnight, but of which day?
        raise BookError("made", text, need)
    try:
        time = datetime.fromisoformat(text[:24])
    except ValueError:
        raise BookError("made", text, need) from None
    return Stamp((time - _EPOCH) // _MS, int(text[25:29], 16), text[30:])


def tick(last: Stamp | None, *, now: int, device: str, behind: Stamp | None = None) -> Stamp:
    """Stamp something made now.

    Parameters
    ----------
    last : Stamp, optional
        The newest this device has made or seen.
    now : int
        Milliseconds since 1970, by the device's own clock.
    behind : Stamp, optional
        What the new entry changes: it is later than that, whatever any clock
        says.

    Returns
    -------
    Stamp
        Now, or just behind ``last`` and ``behind`` where one of them is later.
    """
    stamp = Stamp(now, 0, device)
    earlier = [behind] if behind else []
    if last and not is_ahead(last, now=now):
        earlier.append(last)
    return max([stamp, *(each.next(device) for each in earlier if each >= stamp)])


def follow(last: Stamp | None, seen: Stamp, *, now: int) -> Stamp | None:
    """Move a clock on to a stamp seen, unless a wrong clock must have made it."""
    if is_ahead(seen, now=now):
        return last
    return seen if last is None or is_ahead(last, now=now) else max(last, seen)


def is_ahead(stamp: Stamp, *, now: int) -> bool:
    """Whether a stamp is so far ahead of this device's clock that one of the two is wrong."""
    return stamp.ms > now + MOST_AHEAD
