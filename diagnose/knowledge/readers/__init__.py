"""Validated plain values -> the frozen values of the model, each with its place and origin."""
