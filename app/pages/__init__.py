"""The pages, in the order of their links. A new page is one new file here and one line below."""

from app.pages import athlete, buildup, claim, compare, start, teach, words
from app.pages import map as mass_speed_map
from app.web.page import Page

PAGES: tuple[Page, ...] = (
    compare.PAGE,
    athlete.PAGE,
    mass_speed_map.PAGE,
    claim.PAGE,
    start.PAGE,
    buildup.PAGE,
    teach.PAGE,
    words.PAGE,
)
