"""Content files in, lessons, questions and checklists out; and how answers are marked."""
