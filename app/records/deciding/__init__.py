"""PURE. What may be recorded, and by whom: history and request in, an event or a refusal out."""
