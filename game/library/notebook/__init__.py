"""The notebook: every attempt of every player on this machine, in one SQLite file of the data folder."""
