"""The calculations of the trade: typed quantities, heat, dye, pressure, colour. Knows nothing of rules or files."""
