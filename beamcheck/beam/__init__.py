"""One beam line: stations, loads and stiffness in, exact forces and deflections out. Knows no wood and no house."""
