"""The whole job before it starts: the energies laid flat, a column a step."""
