"""`python -m builder` does the same as the command `rinsebook`."""

from builder.cli import main

if __name__ == "__main__":
    main()
