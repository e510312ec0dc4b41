"""The same program on a screen: its contract, its page, a local server, and the packed file."""
