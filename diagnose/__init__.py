"""presslore: a knowledge base and troubleshooting expert system for a person at a heat press."""

__version__ = "0.1.0"
