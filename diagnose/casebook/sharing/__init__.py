"""A shop's settled rules in a bundle, for another shop to lay over its own."""
