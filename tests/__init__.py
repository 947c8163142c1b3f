"""Tests of Slowbell, by kind: one folder for each."""
