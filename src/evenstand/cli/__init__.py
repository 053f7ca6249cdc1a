"""The command line: tasks with flags."""
