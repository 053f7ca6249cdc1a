"""What to do before a hand comes near the machine or the seed, in order.

Common cautions, never the last word: each list begins with whose word that is.
"""

from ..quantities.phrases import Phrase, say

LABELS_FIRST = say("Follow the drill's operator's manual, the seed label and local codes first.")
UPWIND = say(
    "Stay where the wind carries seed and inoculant dust away from you, and wear a dust mask."
)
REACH = say("Stop the drill and shut off the tractor before you reach in.")
STOP = say(
    "Stop the drill, shut off the tractor, take the key out and wait until nothing moves. "
    "Only then open a lid or a guard."
)

BEFORE_TURNING: tuple[Phrase, ...] = (
    LABELS_FIRST,
    say("Park on level ground, shut off the tractor, take the key out and block the wheels."),
    say("Call out before you raise or lower the openers: they move and cut."),
    say(
        "Set the raised drill on jack stands, never on a jack alone. Put in the hydraulic lockouts."
    ),
    say("Keep everyone out from under the drill, arms included."),
    say("Leave the guards on. Keep hands and sleeves away from chains, sprockets and augers."),
    say("With treated seed, wear gloves. Return or dispose of the catch as the label says."),
    UPWIND,
)

BEFORE_STRAPPING: tuple[Phrase, ...] = (
    LABELS_FIRST,
    say("Shut off the tractor, take the key out and block the wheels."),
    say("Set the drill on jack stands as for turning by hand, the drive wheel off the ground."),
    say("Strap the phone so that it cannot fall off, slip or strike anything in a full turn."),
    say("Keep phone, straps and hands out of the way of chains and sprockets."),
    say("Turn by hand only. Never strap a phone to a drill that is pulled or driven."),
)

BEFORE_LOADING: tuple[Phrase, ...] = (
    LABELS_FIRST,
    STOP,
    say("Keep hands and sleeves out of a box until its augers and agitators have stopped."),
    say("With treated seed, wear gloves, follow the label, and collect or cover what spills."),
    UPWIND,
)

BEFORE_OPENING: tuple[Phrase, ...] = (
    say("Follow the seed and inoculant labels and local codes first."),
    say("With treated seed, wear gloves, long sleeves and a mask before you open the bag."),
    say("Keep treated seed out of feed and away from water. Put what is left back in its bag."),
    UPWIND,
    say("Stop augers and agitators before you put a hand in the box."),
)

BEFORE_DIGGING = say(
    "Dig behind the drill only after it has stopped. Keep everyone out from between drill and "
    "tractor, and let nobody ride on the drill."
)
