"""What a week of practice holds and says: sums by stage, worksheets, pages for home."""
