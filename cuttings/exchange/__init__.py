"""What the program knows, put into the forms that paper and other programs take."""
