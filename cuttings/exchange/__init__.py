"""What leaves the program for others to read: the calendar and the printed page."""
