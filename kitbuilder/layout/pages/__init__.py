"""The pages an adult reads: cover, print run, guide, check sheet."""
