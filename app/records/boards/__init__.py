"""Many standings at once: the board, then and now, a crew for a job."""
