"""What a job gets in the press: heat, pressure, settings, colour and blends."""
