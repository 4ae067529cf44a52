"""Checks across entries and files: what no schema can see."""
