"""Visit -> findings. One rule is one small file; the folders are the subjects of the trade."""
