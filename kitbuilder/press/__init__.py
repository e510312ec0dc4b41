"""How a kit will be printed: printing wishes, measured printers, calibration."""
