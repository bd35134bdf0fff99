"""Who acts in these tests, and on which day."""

from datetime import date

from app.records.acts import Hand

TODAY = date(2026, 3, 2)
HAND = Hand("tab 1", "AB")
OTHER = Hand("tab 2", "CD")
