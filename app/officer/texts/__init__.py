"""Texts: reading, comparing and approving them."""
