"""Ways in and out: one folder per messenger. They know nothing of one another."""
