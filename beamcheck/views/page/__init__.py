"""The local page: a form that holds a survey, and beside it the live summary, served to this machine only."""
