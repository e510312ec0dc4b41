"""What a child may have done: mistaken habits and the answers they give."""
