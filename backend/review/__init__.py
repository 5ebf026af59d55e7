"""The whole-build check: thin jobs around the kernel. They claim work and carry no rules."""
