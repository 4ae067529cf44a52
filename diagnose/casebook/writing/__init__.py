"""Writing into a shop's YAML as a careful person would: the smallest change, comments kept, all of it or nothing."""
