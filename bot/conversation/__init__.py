"""From text to intent: pure, no storage, no wording shown to people."""
