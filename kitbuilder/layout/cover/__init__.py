"""The cover: what the kit is, what is needed, and five steps from printing to the first sum."""
