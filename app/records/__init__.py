"""What happened, and what it means: events, decisions, standing, and the ledger."""
