"""The trade's arithmetic: pure functions, SI with practical prefixes inside."""
