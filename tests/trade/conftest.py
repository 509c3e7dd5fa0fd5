"""Drawn examples without a stopwatch: a busy machine is no reason for a red test."""

from hypothesis import settings

settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
