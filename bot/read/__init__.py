"""The command `read`: how a text would be understood. It has no parser of its own and keeps nothing."""
