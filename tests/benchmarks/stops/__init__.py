"""Training and judging the unsaid full stops."""
