"""Heat and moisture transfer in a piece of meat: geometry, conduction, surface.

Nothing of cooks, readings or people is known here.
"""
