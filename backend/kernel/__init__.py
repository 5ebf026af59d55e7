"""The trade's rules, as pure functions over plain data.

Law: nothing here reads a clock, a file, a network or a setting. The same source runs under CPython on the server and
MicroPython on the phone, and gives the same bytes on both.
"""
