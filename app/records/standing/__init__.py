"""PURE. What the records mean on a day: definition.py, and the rules it calls."""
