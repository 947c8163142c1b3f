"""The program: people, words, chats, storage and the clock around the engine in `scheduler`."""
