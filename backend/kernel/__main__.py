"""`python -m kernel < request.json`: the phone's door, on standard input and output."""
import sys

from .door import call

sys.stdout.write(call(sys.stdin.read()) + "\n")
