"""What the owner wrote: the fields of a survey, its types, its reader and the blank form."""
