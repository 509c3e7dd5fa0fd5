"""The trainer's pages: jobs, resins, supervised repairs from the first look to the record."""
