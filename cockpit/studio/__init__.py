"""What a teaching studio is, and every rule and computation: pure, with the time as an argument."""
