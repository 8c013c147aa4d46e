"""What the words of lowstow mean: vehicle, gear, trip, plan, rule book and the geometry of boxes."""
