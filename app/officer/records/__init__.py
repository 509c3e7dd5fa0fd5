"""One record, and correcting it."""
