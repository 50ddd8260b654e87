"""Recording -> transcript: open and check the sound, find speech, decode, keep what was decoded.

`listen()` is the way in. Importing this package loads neither the recogniser nor the sound library.
"""

from dictate.speech.engine import Engine, Grammar, Heard, NeutralGrammar, Piece
from dictate.speech.listening import Listened, Options, Progress, listen, load_engine, review_copy

__all__ = [
    "Engine",
    "Grammar",
    "Heard",
    "Listened",
    "NeutralGrammar",
    "Options",
    "Piece",
    "Progress",
    "listen",
    "load_engine",
    "review_copy",
]
