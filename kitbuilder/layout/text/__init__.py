"""Words and tables that flow over pages, and references to pages."""
