"""The program: people, words, chats, storage and the clock, built on the scheduler."""
