"""The commands: read, ask, tell, exit."""
