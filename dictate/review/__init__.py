"""The local review page and its terminal twin."""
