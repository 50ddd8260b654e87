"""The shop's own facts and settings, and where each value comes from."""
