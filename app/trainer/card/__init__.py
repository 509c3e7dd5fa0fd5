"""The job card: every number of a repair with its source, on two sheets of paper."""
