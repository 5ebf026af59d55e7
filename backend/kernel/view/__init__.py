"""What the screens and the board show, ready to show.

Law: every sentence and figure a person reads is made here, once, for phone, board and sheet alike.
"""
