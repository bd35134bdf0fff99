"""What laboratories measured of similar throws: the peak of the varus torque, from `model/published/values.csv`."""

from dataclasses import dataclass

from model.published import PublishedValue, values


@dataclass(frozen=True)
class Study:
    """One published mean.

    Attributes
    ----------
    source : PublishedValue
    who : str
        Whom it is of, in a few words.
    """

    source: PublishedValue
    who: str

    @property
    def value(self) -> float:
        """Group mean (N·m)."""
        return self.source.number


STUDIES = tuple(
    Study(values()[key], who)
    for key, who in (
        ("1-kinetics-60", "adult amateurs, Japan"),
        ("1-kinetics-48", "adolescents"),
        ("1-kinetics-01", "skilled adults"),
        ("1-kinetics-53", "college, one laboratory"),
        ("4-effort-distance-18", "college, longest throw"),
    )
)
"""Found in their sources, not recalled; all in N·m of the whole elbow, none from a sensor on the arm."""


def study_words(study: Study) -> str:
    """Say whom a mean is of, with authors and year: "skilled adults, n 26 (Fleisig 1995)"."""
    author = study.source.citation.split()[0].rstrip(",")
    year = next((part for part in study.source.citation.replace(";", " ").split() if _year(part)), "")
    return f"{study.who}, n {study.source.n} ({' '.join(filter(None, (author, year)))})"


def _year(part: str) -> bool:
    return len(part) == 4 and part.isdigit() and part[:2] in ("19", "20")
