"""Laws and solvers of one short-game shot. No screen, no files, no clock, no unseeded chance."""
