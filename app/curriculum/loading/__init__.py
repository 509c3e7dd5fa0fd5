"""Content files into the model: read exactly, every problem with its place."""
