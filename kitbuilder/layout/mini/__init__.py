"""The least kit for one sum."""
