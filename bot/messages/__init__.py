"""All wording that people see. Pure: values in, text and choices out; nothing is sent, decided or stored here."""
