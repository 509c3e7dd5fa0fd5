"""How plain a text is."""
