"""The energies run down beside the steps."""
