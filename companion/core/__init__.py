"""Values and rules of home practice. Pure: no input or output, no clock, no chance, standard library only."""
