"""What would make a rate in the field surer: for each share of its budget its cure."""

from collections.abc import Mapping, Sequence

from ..quantities.phrases import Phrase, say
from ..quantities.units import SHARE
from ..statistics.budget import Share

_MORE = say("read the box again after a few passes")
CURES: Mapping[str, Phrase] = {
    "calibration": _MORE,
    "box levels": say("read the box when it is nearly empty, or weigh what is left"),
    "loads": say("weigh the bags as they go in"),
    "test weight": say("weigh a full measure of the seed"),
    "area": say("check the acre meter on a field of known size"),
    "rate drift": say("read the box more often"),
    "mid-field change": _MORE,
    "the lever change": _MORE,
    "overlap": say("measure the gap between passes in a few spots"),
    "pass-to-pass guidance": say("measure the gap between passes in a few spots"),
    "map": say("walk the field boundary with a GPS receiver, or use a surveyed boundary"),
}
CAUSES: Mapping[str, Phrase] = {
    "calibration": say("the rate Calibrate predicted"),
    "box levels": say("box readings"),
    "loads": say("the weight of the loads"),
    "test weight": say("the test weight"),
    "area": say("the acre meter"),
    "rate drift": say("a rate that drifts"),
    "mid-field change": say("the mid-field change"),
    "the lever change": say("the lever change"),
    "overlap": say("the overlap"),
    "pass-to-pass guidance": say("the gaps between passes"),
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
    text = "{part} of the uncertainty comes from {cause}: {cure}."
    return say(
        text, part=SHARE(known[0].part, 2), cause=CAUSES[known[0].name], cure=CURES[known[0].name]
    )
