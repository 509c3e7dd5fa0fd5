"""The crew check: who fills which hand on a job, for the trainer who plans it and the officer."""
