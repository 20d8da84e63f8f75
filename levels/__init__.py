"""Scenarios: what a coach makes and a player is set. Imports physics, never game."""
