"""The ids of the page of the records."""

KEEPING_INITIALS = "keeping-initials"
KEEPING_INITIALS_SAID = "keeping-initials-said"
KEEPING_ERASE_CODE = "keeping-erase-code"
KEEPING_ERASE = "keeping-erase"
KEEPING_ERASED = "keeping-erased"
KEEPING_FILE = "keeping-file"  # the field for a file that is brought
KEEPING_PLACE = "keeping-file-place"  # where the browser puts that
KEEPING_PREVIEW = "keeping-preview"  # where the browser puts what would come of it
KEEPING_PROGRESS = "keeping-progress"
