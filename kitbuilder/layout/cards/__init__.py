"""Task, fact, arrow and other cards, their packs and labels, on sheets."""
