"""The trade's words as data that a trade person can edit; `load.py` reads the files."""
