"""The terminal as it is: the one writer, plots and patches of colour."""
