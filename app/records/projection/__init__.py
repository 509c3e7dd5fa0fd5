"""The standings of everybody, worked out beforehand, so that a board of 50,000 cells is one query.

What a standing is, judge() in standing/definition.py alone says; nothing here decides anything. It
keeps the answers in another form: between two days on which something happened to a person nothing
about their standing changes but what the clocks say, so a standing is a handful of intervals of
days, and each interval was believed from the arrival of one record until that of another. Such a
rectangle, days across and belief upwards, is one row; a board as of a day, as known at a time, asks
for the rows under one point. Rows hold days (granted on, last good day, next job due) and never
"expired" or "needs an update": those are read off when somebody asks. So a passing day, a revised
module or other days of warning rewrite nothing. `pure/` works intervals out from records and knows
no database: intervals.py (what one is), timeline.py (one standing's intervals as known now),
versions.py (all that were ever believed), lanes.py (where a row lies, so that few are read), and
statuses.py (a status over all days, by which deciding/raising.py finds on which days one rises).
`stored/` keeps them: projecting.py takes in each record inside the transaction that appends it and
works out again only whom it touches (touching.py; quick_step.py for the usual repair or job),
rebuilding.py makes everything anew, board_query.py and projected_cells.py read. boards/board.py
uses all this only if it was made by the same rules from all records, and asks judge() otherwise.
Tests hold the two equal on random histories.
"""
