"""What a teacher can do, without a screen: fetch, ask a rule, store."""
