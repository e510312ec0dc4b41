"""The page packed with the engine into one file."""
