"""What is known of each plant and each way of making more of it, every figure with its source."""
