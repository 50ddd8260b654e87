"""Which parts were handled, and which numbers they bear.

handled_parts  parts that were handled: `find_parts(narration) -> list[Part]`
part_marks     part numbers told away from the verb: `add_part_numbers(narration, mentions)`
designations   model, serial and part numbers as people spell them
"""
