"""What happened: dated entries, the lots they make, and the file that cannot lose them."""
