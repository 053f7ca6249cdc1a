"""Everything that is kept: entries, where they lie, and how books exchange them."""
