"""YAML with positions -> checked, frozen values; every problem at once; the compiled cache."""
