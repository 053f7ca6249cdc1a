"""Results on paper, on a screen and as data, in their reader's units."""
