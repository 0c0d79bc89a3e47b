"""What is asked of one shot, or of one set of clubs."""
