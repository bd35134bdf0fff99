"""How a page says that what it shows is invented."""

INVENTED = "Invented demo data: nobody here exists and nothing was measured."
