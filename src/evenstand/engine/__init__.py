"""The arithmetic: numbers in, numbers out, all in SI."""

FORMULAS = "2026-11"  # raised when a formula gives other numbers from the same inputs
