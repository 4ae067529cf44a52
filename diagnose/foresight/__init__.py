"""Knowledge and calculations together: what an item gets in the press, what to set, what a reading says."""
