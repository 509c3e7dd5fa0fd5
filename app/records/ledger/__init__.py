"""The table of records: its one door, exact bytes, chain and tree, and reading it back."""
