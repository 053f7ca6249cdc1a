"""What would make a rate in the field surer: for each share of its budget its cure."""

from collections.abc import Mapping, Sequence

from ..quantities.phrases import Phrase, say
from ..quantities.units import SHARE
from ..statistics.budget import Share

_MORE = say("read the box again after some ground")
CURES: Mapping[str, Phrase] = {
    "calibration": _MORE,
    "levels read": say("read the box when it is nearly empty, or weigh what is left"),
    "loads": say("weigh the bags as they go in"),
    "test weight": say("weigh a full measure of the seed"),
    "area": say("hold the area meter against a field whose area is known"),
    "drift of the rate": say("read the box more often"),
    "change on the way": _MORE,
    "lever moved": _MORE,
    "overlap": say("measure the gap between passes at some places"),
    "guidance": say("measure the gap between passes at some places"),
    "map": say("walk round the field with a receiver, or take its outline from a survey"),
}
CAUSES: Mapping[str, Phrase] = {
    "calibration": say("what Set promised"),
    "levels read": say("reading the box"),
    "loads": say("the weight of the loads"),
    "test weight": say("the test weight"),
    "area": say("the area meter"),
    "drift of the rate": say("a rate that wanders"),
    "change on the way": say("the change on the way"),
    "lever moved": say("the lever that was moved"),
    "overlap": say("the overlap"),
    "guidance": say("the gaps between passes"),
    "map": say("the map"),
}


def cure_of(shares: Sequence[Share]) -> Phrase | None:
    """Name the largest share of a budget and its cure; None where all is exact.

    Parameters
    ----------
    shares : sequence of Share, largest first
    """
    known = [share for share in shares if share.name in CURES]
    if not known:
        return None
    text = "{part} of the doubt is {cause}: {cure}."
    return say(
        text, part=SHARE(known[0].part, 2), cause=CAUSES[known[0].name], cure=CURES[known[0].name]
    )
