"""A command a module: a person's words into a request, its result into plain words."""
