"""Which parts the talk says were handled, for the text encoder to learn."""
