"""How heat and time turn into colour: vapour pressure, dose, share of full colour."""
