"""The safety officer's pages: board, people, standing, decisions, records, procedures."""
