"""The composition root: what the program is made of is put together here and nowhere else."""

from evenstand.cli.line import CommandLine, commands


def command_line() -> CommandLine:
    """Return the command line with its commands."""
    return commands
