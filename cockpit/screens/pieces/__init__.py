"""Looking back: a student's page, the history of a piece, the mix."""
