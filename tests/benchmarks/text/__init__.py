"""How well typed narrations are read: our pipeline, and general libraries, on the same labelled text."""
