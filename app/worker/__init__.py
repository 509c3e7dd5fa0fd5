"""The new hire's pages: learn step by step, take the quiz, see where one stands."""
