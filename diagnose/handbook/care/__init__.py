"""Care notes for the customer: pages of the handbook, and cards to lay in with a piece."""
