"""Measurements: how right, how near the best and how fast the reasoning is. Run by ``./dev bench [name ...]``."""
