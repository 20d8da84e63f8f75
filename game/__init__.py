"""What people see and touch: the window, the command line, the pictures. Draws a Shot, never computes one."""

__all__: list[str] = []
