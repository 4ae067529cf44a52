"""Looking things up: defects, causes, checks, fixes, items and care."""
