"""What others see from afar: status, build sheet, procedures. Reads only; nothing imports this."""
