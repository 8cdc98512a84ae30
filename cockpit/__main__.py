"""The program's front door: `cockpit` and `python -m cockpit`."""

import sys


def main() -> None:
    """Runs the command line and leaves with its exit status."""
    from cockpit.cli.main import main as run

    sys.exit(run())


if __name__ == "__main__":
    main()
