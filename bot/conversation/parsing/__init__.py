"""The pieces of the reader: words, numbers, times, steps. Pure; no intent leaves here but through the interpreter."""
