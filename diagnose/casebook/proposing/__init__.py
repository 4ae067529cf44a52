"""A new rule from what a person at the press has found out: checked, tried on every worked case, then written."""
