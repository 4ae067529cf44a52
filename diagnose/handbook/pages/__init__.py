"""One module for each kind of page. Each has ``leaves(book)``, which gives its pages."""
