"""The parts that pages are made of, each placed to a tenth of a millimetre before it is drawn."""
