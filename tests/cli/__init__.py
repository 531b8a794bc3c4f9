"""The commands as their users meet them."""
