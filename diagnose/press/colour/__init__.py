"""Colours of prints: how far two are apart, what a person would call that, and what a blend makes of them."""
