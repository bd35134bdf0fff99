"""Every id of the page, in one place."""

TRUST = "trust"  # how the ids of its headings begin
TRUST_HEADLINE = "trust-headline"
TRUST_TABLE = "trust-table"
TRUST_BAND = "trust-band"
TRUST_TABLE_TOLD = "trust-table-told"
TRUST_BAND_TOLD = "trust-band-told"
