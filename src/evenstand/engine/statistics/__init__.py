"""Uncertainty and chance.

A quantity with its budget and range, the distributions and their quantiles, and tests, fits and
filters as the books of statistics print them. It knows no drill.

Open to other rooms: budget, composition, count_tables, counting, cusum, distributions,
elementary, kalman, line, outliers, quantile, variance, vectors.
"""
