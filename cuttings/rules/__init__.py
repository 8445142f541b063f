"""Pure rules of the trade: rooting, layering, division, potting, hardening off, transplanting, caution.

Nothing here reads a clock, a file or the environment; the caller passes ``today``.
"""
