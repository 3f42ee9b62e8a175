"""`python -m bickern.cli` does what `bickern` does."""

from bickern.cli.main import main

if __name__ == "__main__":
    main()
