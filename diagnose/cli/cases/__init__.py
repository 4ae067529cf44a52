"""The casebook on the command line: cases, reports, and what they teach."""
