"""``presslore diagnose``: the main job, from first sight to cure."""
