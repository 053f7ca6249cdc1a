"""Pages for a browser: one blueprint for each step of a job."""
