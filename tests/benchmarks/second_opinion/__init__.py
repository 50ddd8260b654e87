"""Train and judge the second opinion (`dictate/mentions/second_opinion.py`)."""
