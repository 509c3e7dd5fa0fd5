"""Supervised repairs while they are watched: steps, port log, batches."""
