"""Rows against each other.

How even they are, which one is odd, what pattern they have, and what usually causes it.

Open to other rooms: catch, causes, evenness, findings.
"""
