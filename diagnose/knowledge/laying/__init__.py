"""Folders laid over one another: from files to the knowledge that serves."""
