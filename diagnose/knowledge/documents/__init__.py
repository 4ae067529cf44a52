"""Files of YAML as values with positions, and whether they fit their schema."""
