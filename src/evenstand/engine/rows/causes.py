"""Usual causes of what the rows of a drill show, in the order to check them."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from ..quantities.phrases import Phrase, say
from ..quantities.working import PRACTICE

Fault = Literal[
    "nothing",
    "together",
    "low",
    "high",
    "halves",
    "trend",
    "ends",
    "period",
    "ranks",
    "column",
    "uneven",
]

MANUAL = "operator's manuals of grain drills, makers not named"
EXTENSION = "University of Georgia Extension, Colquitt County (2024)"
SLOPE = "Saqib and Segun (1985), Obafemi Awolowo University"
LEVEL = "Pantnagar Journal of Research 20(1), 2022, abstract"
EMERGED = "Reduced Tillage Linkages (Green, 2003)"


@dataclass(frozen=True, slots=True)
class Check:
    """One thing to look at, asked as a question, and who says so."""

    say: Phrase
    source: str = PRACTICE


_HOSE = Check(say("Is the hose kinked or the boot partly blocked?"))
_BLOCKED = Check(say("Is the hose or boot blocked, with soil or with seed that sprouted in it?"))
_SHARED_DRIVE = Check(say("Does the drive of these rows slip: chain, clutch, pin, its own wheel?"))

CAUSES: Mapping[Fault, tuple[Check, ...]] = {
    "nothing": (
        Check(say("Is the gate or slide of the meter shut?")),
        _BLOCKED,
        Check(say("Is that part of the box empty, or does seed bridge over the meter?")),
        Check(say("Does the meter turn with the shaft, or is a pin or key gone?")),
    ),
    "together": (
        _SHARED_DRIVE,
        Check(say("Is that part of the box empty?")),
        Check(say("Are the gates or slides of these meters shut?")),
        _BLOCKED,
    ),
    "low": (
        _HOSE,
        Check(say("Does the gate, flap or roller open less than next to it?"), MANUAL),
        Check(say("Is trash or seed treatment built up in the meter or on the flap?"), MANUAL),
        Check(say("Does seed bridge over the meter?")),
        Check(say("Is the meter worn, or is another roller fitted?"), EXTENSION),
        Check(
            say(
                "After emergence: is the row late (its opener), or has it gaps (its hose or boot)?"
            ),
            EMERGED,
        ),
    ),
    "high": (
        Check(say("Is the gap at the flap or gate wider than next to it?"), MANUAL),
        Check(say("Does the roller stand in farther than next to it?"), MANUAL),
        Check(say("Is the roller or its cut-off worn or broken?"), EXTENSION),
        Check(say("Does seed of the row beside it run into this hose or bag?")),
    ),
    "halves": (
        _SHARED_DRIVE,
        Check(say("Do both levers stand alike, the slack taken up the same way?"), MANUAL),
        Check(say("Is the seed in the box as high on both sides?"), LEVEL),
    ),
    "trend": (
        Check(say("Does the drill stand level from side to side?"), SLOPE),
        Check(say("Is the seed in the box heaped to one side?"), LEVEL),
        Check(say("Does slack add up along the feed shaft?"), MANUAL),
    ),
    "ends": (
        Check(say("Does the seed reach the ends of the box?"), LEVEL),
        Check(say("Does the agitator work as far as the ends?")),
        Check(say("Do the outermost hoses lie too flat?")),
    ),
    "ranks": (
        Check(say("Do the hoses of one rank lie flatter or sag?")),
        Check(say("Do the feed shafts of the ranks stand at the same setting?")),
        Check(
            say(
                "After emergence: are front rows late under thrown soil, or rear rows late because"
                " they lie too shallow?"
            ),
            EMERGED,
        ),
    ),
    "period": (
        Check(say("What do these rows share: a part of the box, a feed shaft, a head?")),
        Check(say("Are their meters worn more, or from another set?"), EXTENSION),
        Check(say("Do agitator fingers or box braces stand over them?")),
    ),
    "uneven": (
        Check(say("Do all meters read zero together, with no slack between them?"), MANUAL),
        Check(say("Is the seed in the box level and well above the meters?"), LEVEL),
        Check(say("Are the meters worn?"), EXTENSION),
        Check(say("Does the seed hang together: chaff, awns, damp?")),
    ),
    "column": (
        Check(say("Do these rows share a setting lever or a gate position?")),
        _SHARED_DRIVE,
        Check(say("Is the seed over these rows as high as over the others?"), LEVEL),
    ),
}
