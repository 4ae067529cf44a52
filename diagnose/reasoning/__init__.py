"""Beliefs over causes, the next best step, the reasons why, and matching a person's own words."""
