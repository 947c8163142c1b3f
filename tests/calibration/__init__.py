"""Fitting the prior to the trade table: what is compared, the search for medians, the record of the fit.

Nothing here looks at the virtual kitchen or at measured cooks.
"""
