"""The order of things: what goes in first, what comes out, what must be moved to get at one."""
