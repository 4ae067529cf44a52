"""``presslore ready``: a job before it goes under the platen."""
