"""``python -m whimbrel.cli`` is the command ``whimbrel``."""

from .app import main

if __name__ == "__main__":
    main()
