"""The reading grade of a text: Kincaid JP, Fishburne RP, Rogers RL, Chissom BS. Derivation of new readability formulas
for Navy enlisted personnel. Research Branch Report 8-75, Naval Technical Training Command, Millington, 1975.

    grade = 0.39 words / sentences + 11.8 syllables / words - 15.59

Syllables are counted by groups of vowels, a silent e left out; a number counts one for each digit, a unit one. That
counts rather too many than too few.
"""

import re

UNITS = {"n·m", "m/s", "g", "mph", "oz", "%", "ms"}
SILENT = re.compile(r"(?<=[^aeiouy])(?:e|es|ed)$")
SOUNDED = re.compile(r"(?:[td]ed|[cgsxz]es|[cs]hes|[^aeiouy]le|[^aeiouy]les)$")


def syllables(word: str) -> int:
    """Count the syllables of a word, a number or a unit."""
    text = word.lower()
    if text in UNITS:
        return 1
    digits = sum(sign.isdigit() for sign in text)
    if digits:
        return digits
    letters = re.sub(r"[^a-z]", "", text).replace("que", "k")  # torque
    short = letters if SOUNDED.search(letters) else SILENT.sub("", letters)
    return max(1, len(re.findall(r"[aeiouy]+", short)))


def grade(sentences: list[str]) -> float:
    """The grade of a text of so many sentences."""
    words = [word for text in sentences for word in re.findall(r"[\w·/.%’'-]*\w[\w·/%’'-]*|%", text)]
    return 0.39 * len(words) / len(sentences) + 11.8 * sum(map(syllables, words)) / len(words) - 15.59
