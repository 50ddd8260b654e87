"""From what a refrigeration technician says on the job to a checked service record."""

__version__ = "0.1.0"
