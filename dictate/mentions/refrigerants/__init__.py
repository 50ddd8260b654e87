"""Which refrigerants were named.

named       refrigerant names in a narration, in ASHRAE 34 form: `find_refrigerants(narration)`
introduced  a bare number beside a machine just named
pieces      names of refrigerants whose digits and letters came apart
"""
