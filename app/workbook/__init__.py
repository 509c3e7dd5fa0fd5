"""Working papers: what is still being done and may still change.

Reading progress, quiz attempts, jobs with their resin, and supervised repairs before they are
signed. What is signed or passed becomes a record (app/records) and can't be changed any more.
"""
