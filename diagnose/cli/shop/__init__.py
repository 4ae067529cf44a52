"""The shop's own folder: what is found on it, and ``presslore shop``."""
