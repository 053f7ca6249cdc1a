"""What needs heavier libraries, and never runs on a phone."""
