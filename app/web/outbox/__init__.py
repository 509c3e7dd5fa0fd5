"""What phones send later: read, taken in once, receipted."""
