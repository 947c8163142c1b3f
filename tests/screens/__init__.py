"""Golden screens: what people see when a cook is planned, kept as text that can be read aloud."""
