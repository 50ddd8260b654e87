"""Recording -> transcript: open and check the sound, find speech, decode, keep what was decoded."""
