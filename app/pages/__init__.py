"""The pages, in the order of their links. A new page is one new file here and one line below."""

from app.page import Page
from app.pages import compare

PAGES: tuple[Page, ...] = (compare.PAGE,)
