"""Every formula worked out with made-up machines, against the reference."""
