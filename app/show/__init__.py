"""What pages share: figures, words, controls, checks, and the thrower they speak of."""
