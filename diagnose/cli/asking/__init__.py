"""What a person tells, typed as flags or asked for."""
