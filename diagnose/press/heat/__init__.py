"""How heat soaks from the platen through sheets, item, pad and bed."""
