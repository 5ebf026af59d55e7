"""Procedures as dated, sourced data: checked here, compiled to the JSON the kernel reads."""
