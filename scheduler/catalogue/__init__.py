"""Data files of the trade, read by the program's composition root and passed to the engine as text."""
