"""The one family of errors this package raises on purpose.

Every message is a sentence for a person: the place, the value found, what is allowed.
"""


class OffgridError(ValueError):
    """Something a person gave cannot be used; the message says what, where and what is allowed."""


class WorksheetError(OffgridError):
    """A worksheet was built wrongly, or a given is missing, unknown or outside its validity."""


class ReadingError(OffgridError):
    """A number or unit that a person typed cannot be read safely."""


class DataError(OffgridError):
    """A data set is missing, damaged, or holds a value that is not allowed."""


class PlanError(OffgridError):
    """A plan file cannot be read or holds something that is not allowed."""
