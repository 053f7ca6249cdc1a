"""Words of a mix that a reader chooses from or is shown: groups, seasons, stands."""

from evenstand.engine.quantities.phrases import Phrase, say

WORDS: dict[str, Phrase] = {
    "grass": say("grass"),
    "legume": say("legume"),
    "broadleaf": say("broadleaf"),
    "brassica": say("brassica"),
    "cool": say("cool season"),
    "warm": say("warm season"),
    "native grass": say("native grass"),
    "dryland grass": say("dryland grass"),
    "critical area": say("critical area"),
    "small grain": say("small grain"),
    "alfalfa": say("alfalfa"),
    "turf": say("turf"),
}
