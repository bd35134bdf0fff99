"""The pages, in the order of their links. A new page is one new folder here, and its line below."""

from app.bind.page import Page
from app.pages.athlete import page as athlete
from app.pages.athletes import page as athletes
from app.pages.balls import page as balls
from app.pages.buildup import page as buildup
from app.pages.claim import page as claim
from app.pages.compare import page as compare
from app.pages.keeping import page as keeping
from app.pages.log import page as log
from app.pages.map import page as mass_speed_map
from app.pages.start import page as start
from app.pages.teach import page as teach
from app.pages.trust import page as trust
from app.pages.words import page as words

PAGES: tuple[Page, ...] = (
    athletes.PAGE,
    athlete.PAGE,
    compare.PAGE,
    mass_speed_map.PAGE,
    claim.PAGE,
    start.PAGE,
    buildup.PAGE,
    log.PAGE,
    teach.PAGE,
    balls.PAGE,
    keeping.PAGE,
    trust.PAGE,
    words.PAGE,
)
