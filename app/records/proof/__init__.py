"""Showing that the records are whole: verifying, checkpoints, proofs, the installation's key."""
