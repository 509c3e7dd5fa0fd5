"""An invented crew with an invented past, for the first five minutes and for trying things out.

Every person, firm, site and product here is made up; the sites and resins say so in their names.
The past is told through the same decisions that the pages use, so it can hold nothing that the
program would refuse.
"""
