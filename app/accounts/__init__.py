"""People, roles, passwords and sessions: correctable and erasable, so not in the ledger."""
