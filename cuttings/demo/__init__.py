"""An invented garden, Quarry Bank, with a history that always reaches up to today."""
