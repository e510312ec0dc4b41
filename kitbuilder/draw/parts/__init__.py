"""The parts that pages are made of, as marks: pictograms, words, furniture, small pieces."""
