"""Phones that carry the book along.

Pairing, exchange, and the files that a phone loads.

Open to other rooms: devices, exchange, files, folder, this_phone.
"""
