"""The blocks of reading pages and of the check sheet, as marks."""
