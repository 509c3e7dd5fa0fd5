"""Jobs: the crack, its amounts, who goes, and whether injection is right for it."""
