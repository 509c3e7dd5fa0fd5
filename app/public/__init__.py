"""The pages for everybody: the sources without signing in, the words of the trade with it."""
