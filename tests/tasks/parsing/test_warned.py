"""Questions about inputs: each said once, for everything it is about."""

from evenstand.engine.quantities.errors import Path
from evenstand.engine.quantities.phrases import say
from evenstand.tasks.parsing.warned import Warned, noticed


def test_the_same_question_about_three_lots_is_one_with_three_inputs():
    old = [Warned(Path("lots", n, "tested"), say("old"), name) for n, name in enumerate("ABA", 1)]
    other = Warned(Path("lots", 2, "purity"), say("low"), "B")
    assert [(each.say, each.about) for each in noticed([old[0], other, *old])] == [
        (say("old"), tuple(old)),
        (say("low"), (other,)),
    ]


def test_a_sentence_that_is_about_no_input_is_said_once():
    assert [each.about for each in noticed([say("mind"), say("mind")])] == [()]
