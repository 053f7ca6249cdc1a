"""The arithmetic: numbers in, numbers out, all in SI."""
