"""What was typed in an older book moves into a fresh one."""
