"""The session, a pure value that each answer turns into a new one, and the words for what it knows."""
