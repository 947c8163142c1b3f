"""One file for each thing a person can want. Handlers decide; they write nothing themselves."""
