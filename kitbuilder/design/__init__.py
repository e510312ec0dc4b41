"""The TOML files of designs/ as checked records, and how wide letters are."""
