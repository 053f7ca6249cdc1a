"""How deep JSON is nested, seen before anything reads it.

In a browser Python stands on a small stack: text that is nested a thousand
deep would end the whole program there, with no error to catch.
"""

import re

MOST_DEEP = 40

_STRING = re.compile(rb'"(?:[^"\\]|\\.)*"', re.DOTALL)
_BRACKET = re.compile(rb"[\[\]{}]")


def is_too_deep(text: bytes) -> bool:
    """Whether JSON is nested deeper than anything a book holds.

    Examples
    --------
    >>> is_too_deep(b'{"a": [1, 2, "[[["]}'), is_too_deep(b"[" * 41)
    (False, True)
    """
    if text.count(b"[") + text.count(b"{") <= MOST_DEEP:
        return False
    deep = 0
    for bracket in _BRACKET.findall(_STRING.sub(b"", text)):
        deep += 1 if bracket in b"[{" else -1
        if deep > MOST_DEEP:
            return True
    return False
