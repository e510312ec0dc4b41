"""The course's own pages: weeks, slips for the teacher, how far we are, pages for adults."""
