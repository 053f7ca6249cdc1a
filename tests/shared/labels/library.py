"""Sentences of the room library that tests look for."""

from .label import Label

USE_TOGETHER_WITH = Label("use it together with {partner}")
