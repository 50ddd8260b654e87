"""Found so or left so: the stage of each reading.

told      as found or as left where the words say so
contrast  found and left by contrast, by the machine running again, by things gone through in turn
moments   moments that tell as found from as left
pairs     values of one sentence that are set against each other, or share one moment
headings  headings that tell the stage of what stands under them
which_part  the part that came out, or the one that went in
told_first  the end told first, until the talk goes back
state     stages told by the state that a machine was in, and by values that one's own hand moved
"""
