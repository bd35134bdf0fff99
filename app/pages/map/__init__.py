"""The Map page: a quantity over ball mass and release speed, for one athlete."""
