"""Views of what a record holds for a purpose: which fields are there, which are not, with a jump to each.

`warranty(record)` for a warranty claim, `refrigerant_log(record)` for a log of refrigerant. Both return
lists of `Field`; a review page or an export shows them. They are no rules: nothing here is a verdict.
"""

from dictate.checks.completeness.field import Field
from dictate.checks.completeness.refrigerant_log import refrigerant_log
from dictate.checks.completeness.warranty import warranty

__all__ = ["Field", "refrigerant_log", "warranty"]
