"""The half that listens and decides. It never delivers: it writes what is to be said into the outbox."""
