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
EXTENSION = "a university extension page on drill calibration (2024)"
SLOPE = "Saqib and Segun (1985), Obafemi Awolowo University"
LEVEL = "Pantnagar Journal of Research 20(1), 2022, abstract"
EMERGED = "Green (2003), a fact sheet on reduced tillage"


@dataclass(frozen=True, slots=True)
class Check:
    """One thing to look at, asked as a question, and who says so."""

    say: Phrase
    source: str = PRACTICE


_HOSE = Check(say("Is the seed tube kinked or the boot partly plugged?"))
_BLOCKED = Check(say("Is the seed tube or boot plugged with soil or sprouted seed?"))
_SHARED_DRIVE = Check(
    say("Is the drive on these rows slipping: chain, clutch, pin, its own wheel?")
)

CAUSES: Mapping[Fault, tuple[Check, ...]] = {
    "nothing": (
        Check(say("Is the meter's gate or slide shut?")),
        _BLOCKED,
        Check(say("Is that part of the box empty, or does seed bridge over the meter?")),
        Check(say("Does the meter turn with the shaft, or is a pin or key missing?")),
    ),
    "together": (
        _SHARED_DRIVE,
        Check(say("Is that part of the box empty?")),
        Check(say("Are the gates or slides on these meters shut?")),
        _BLOCKED,
    ),
    "low": (
        _HOSE,
        Check(say("Does the gate, flap or roller open less than the ones next to it?"), MANUAL),
        Check(say("Is trash or seed treatment built up in the meter or on the flap?"), MANUAL),
        Check(say("Does seed bridge over the meter?")),
        Check(say("Is the meter worn, or is a different feed roll in it?"), EXTENSION),
        Check(
            say(
                "After emergence: is the row late (check its opener), or does it "
                "have gaps (check its seed tube or boot)?"
            ),
            EMERGED,
        ),
    ),
    "high": (
        Check(say("Is the gap at the flap or gate wider than on the ones next to it?"), MANUAL),
        Check(say("Is the feed roll pushed in farther than the ones next to it?"), MANUAL),
        Check(say("Is the feed roll or its cutoff worn or broken?"), EXTENSION),
        Check(say("Is seed from the next row running into this tube or bag?")),
    ),
    "halves": (
        _SHARED_DRIVE,
        Check(
            say("Are both levers at the same setting, with the play taken up the same way?"), MANUAL
        ),
        Check(say("Is the seed in the box at the same height on both sides?"), LEVEL),
    ),
    "trend": (
        Check(say("Is the drill level from side to side?"), SLOPE),
        Check(say("Is the seed in the box heaped to one side?"), LEVEL),
        Check(say("Does play add up along the feed shaft?"), MANUAL),
    ),
    "ends": (
        Check(say("Does the seed reach the ends of the box?"), LEVEL),
        Check(say("Does the agitator reach all the way to the ends?")),
        Check(say("Do the outermost seed tubes run too flat?")),
    ),
    "ranks": (
        Check(say("Do the seed tubes on one rank run flatter or sag?")),
        Check(say("Are the feed shafts of the ranks at the same setting?")),
        Check(
            say(
                "After emergence: are front rows late under thrown soil, or rear "
                "rows late because they are too shallow?"
            ),
            EMERGED,
        ),
    ),
    "period": (
        Check(
            say(
                "What do these rows have in common: a part of the box, a feed shaft, a "
                "distributor head?"
            )
        ),
        Check(say("Are their meters more worn, or from a different set?"), EXTENSION),
        Check(say("Are agitator fingers or box braces above them?")),
    ),
    "uneven": (
        Check(say("Do all meters read zero together, with no play between them?"), MANUAL),
        Check(say("Is the seed in the box level and well above the meters?"), LEVEL),
        Check(say("Are the meters worn?"), EXTENSION),
        Check(say("Is the seed hanging together: chaff, awns, moisture?")),
    ),
    "column": (
        Check(say("Do these rows share a setting lever or a gate position?")),
        _SHARED_DRIVE,
        Check(say("Is the seed over these rows as deep as over the others?"), LEVEL),
    ),
}
