"""From the papers of a repair to a signed record, and what else a trainer vouches for."""
