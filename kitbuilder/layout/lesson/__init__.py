"""The lesson and the pages beside it: strips, when to write, when the answer is wrong."""
