"""Tables typed, pasted or dropped on the page: which shape they have, what they hold."""
