"""Names that no two devices ever give twice."""

from uuid import UUID

ID = "[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}"


def uuid7(ms: int, random: bytes) -> str:
    """Make a universally unique identifier, version 7, that sorts by time.

    Parameters
    ----------
    ms : int
        Milliseconds since 1970, UTC.
    random : bytes
        Ten random bytes.

    References
    ----------
    RFC 9562 (2024), section 5.7.

    Examples
    --------
    >>> uuid7(1_795_568_400_000, bytes(10))
    '01a21037-7680-7000-8000-000000000000'
    """
    bits = int.from_bytes(random[:10], "big")
    rand_a, rand_b = bits >> 68, bits & (1 << 62) - 1
    stamp = ms & (1 << 48) - 1
    return str(UUID(int=stamp << 80 | 7 << 76 | rand_a << 64 | 2 << 62 | rand_b))
