"""What a design looks like on paper, in a terminal, and to another program."""
