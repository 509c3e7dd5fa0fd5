"""Everybody at once: the board, what is missing, then and now, crews."""
