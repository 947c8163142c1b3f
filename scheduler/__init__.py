"""The engine: meat, heat, time and plans. It calculates; it does no input or output and reads no clock."""
