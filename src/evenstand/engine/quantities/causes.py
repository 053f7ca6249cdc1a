"""The causes of an uncertainty in words: what is in a tag beside its name is told apart from it."""

from .phrases import Phrase, say

_OF = {
    "rate of ": "rate of {name}",
    "test weight of ": "test weight of {name}",
    "test weight in ": "test weight in {name}",
    "volume of ": "volume of {name}",
    "biomass of ": "biomass of {name}",
    "C:N of ": "C:N of {name}",
}


def cause(tag: str) -> Phrase:
    """Say what a share of a budget comes from.

    Parameters
    ----------
    tag : str
        Of a quantity, such as ``slip``, ``rate of grain`` or ``Oats: purity``.

    Examples
    --------
    >>> cause("rate of grain"), str(cause("Oats: purity"))
    (Phrase(template='rate of {name}', values={'name': 'grain'}), 'Oats: purity')
    """
    for begun in _OF:
        if tag.startswith(begun):
            return say(_OF[begun], name=tag.removeprefix(begun))
    owner, apart, own = tag.rpartition(": ")
    return say("{owner}: {cause}", owner=owner, cause=say(own)) if apart else say(tag)
