set(sources band.c inverse.c lapack.c null_space.c ordering.c polynomial.c tiles.c)
