"""Train and judge the text encoder of the second opinion (`dictate/mentions/second_opinion/encoder/`)."""
