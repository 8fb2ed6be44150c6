"""From what the wall carries to line and point loads by load type, each row with where it came from."""
