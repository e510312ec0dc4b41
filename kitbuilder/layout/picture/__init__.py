"""Pictures of the mat at one moment: zones, pieces, numbers, and arrows along clear ways."""
