"""How much of the package and of the page's engine the tests reach, and which test reaches which line."""
