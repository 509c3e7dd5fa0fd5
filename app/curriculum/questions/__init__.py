"""Questions: drawn from a seed, put into words, marked."""
