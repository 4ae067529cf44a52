"""The shop's memory: its cases, what they teach, and the rules that come of them."""
