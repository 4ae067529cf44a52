"""``presslore rules``: new rules, trials, differences, and bundles between shops."""
