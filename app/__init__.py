"""The screens and commands of Levelpeak: they show what ``model`` computes, and compute nothing themselves."""
