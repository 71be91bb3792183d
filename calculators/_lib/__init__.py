"""What the calculators share: declarations, numbers typed by hand, uncertainty, verdicts, the number line."""
