"""One command a file. What takes long to load is loaded inside the command, so that help answers at once."""
