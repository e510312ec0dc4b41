"""What a lesson needs: the contents of a kit for its sums."""
