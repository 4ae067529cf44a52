"""What the cases add up to: values, sentences, tables, charts and the page."""
