"""Records in, intervals of days with the times of their belief out. PURE: no database, no clock."""
