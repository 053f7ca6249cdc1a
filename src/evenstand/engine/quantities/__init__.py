"""What a number is before it means anything of the trade.

Units with their sizes in SI, sentences whose amounts are still SI, the lines of the math behind
a result, and the one family of errors. It knows no formula.

Open to other rooms: errors, phrases, units, working, written.
"""
