"""The intervals as rows: made anew, brought up to date by each append, asked for a board."""
