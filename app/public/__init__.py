"""The pages anyone may open without signing in."""
