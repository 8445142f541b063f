"""Where a new plant can go: which sites suit it and why, and the free positions on each."""
