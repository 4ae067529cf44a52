"""How the listener's table is made: from ways of saying, and from whole messages in which every telling is marked."""
