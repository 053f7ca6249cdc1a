"""Addresses under which this computer is reached: by itself, and by others in its network."""

import ipaddress
import socket
from contextlib import suppress

ANY = ("0.0.0.0", "::", "")
# Addresses of examples (RFC 5737, RFC 3849): asked for the way there, nothing is sent.
_FAR = ((socket.AF_INET, "192.0.2.1"), (socket.AF_INET6, "2001:db8::1"))


def is_loopback(host: str) -> bool:
    """Whether only this computer itself reaches a host.

    Examples
    --------
    >>> [is_loopback(host) for host in ("127.0.0.1", "localhost", "::1", "0.0.0.0", "barn")]
    [True, True, True, False, False]
    """
    if host == "localhost":
        return True
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return False


def in_url(host: str) -> str:
    """Write a host as an address on the web has it.

    Examples
    --------
    >>> in_url("barn"), in_url("::1")
    ('barn', '[::1]')
    """
    return f"[{host}]" if ":" in host else host


def reached_at(host: str) -> list[str]:
    """Return the hosts under which others reach what listens at a host, the likeliest first.

    Parameters
    ----------
    host : str
        As it was given: one address or name, or one that stands for all.
    """
    if is_loopback(host):
        return []
    return _of_this_computer(host) if host in ANY else [host]


def _of_this_computer(host: str) -> list[str]:
    found = [*_ways_out(), *_by_name()]
    if host != "::":
        found = [each for each in found if ":" not in each]
    return list(dict.fromkeys(each for each in found if _is_reachable(each)))


def _ways_out() -> list[str]:
    """Return the addresses that this computer would send from."""
    found = []
    for family, far in _FAR:
        with suppress(OSError), socket.socket(family, socket.SOCK_DGRAM) as way:
            way.connect((far, 9))
            found.append(str(way.getsockname()[0]))
    return found


def _by_name() -> list[str]:
    with suppress(OSError):
        return [str(each[4][0]) for each in socket.getaddrinfo(socket.gethostname(), None)]
    return []


def _is_reachable(address: str) -> bool:
    found = ipaddress.ip_address(address.partition("%")[0])
    return not (found.is_loopback or found.is_link_local or found.is_unspecified)
