"""Approved texts: their bytes kept, and which is in force."""
