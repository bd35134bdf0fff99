"""Every id of the Claim page, in one place: a callback and a layout that name the same thing name it once."""

# The Claim page. Stores.
CLAIM_SAVED = "claim-saved"  # the claim's form as typed; kept for as long as the browser's tab is
CLAIM_WRITTEN = "claim-written"  # what the fields were last made from, and the units they show
CLAIM_READ = "claim-read"  # {"compare", "athlete"}: the other pages' forms as this page found them

# What is claimed.
CLAIM_ATHLETE = "claim-athlete"
CLAIM_READING = "claim-reading"
CLAIM_THROWN = "claim-thrown"
CLAIM_WAY = "claim-way"
CLAIM_SWAP = "claim-swap"
CLAIM_FIELD = "claim-field"  # {"type": this, "name": field}
CLAIM_RACK = "claim-rack"  # {"type": this, "ball": "first" or "second"}
CLAIM_TYPED = "claim-typed"  # {"type": this, "ball": "first" or "second"}: where its speed is typed
CLAIM_SAME = "claim-same"  # where the speed of both is typed

# What becomes of it.
CLAIM_INVENTED = "claim-invented"
CLAIM_WHO = "claim-who"
CLAIM_EMPTY = "claim-empty"
CLAIM_BODY = "claim-body"
CLAIM_SENTENCE = "claim-sentence"
CLAIM_READOUTS = "claim-readouts"
CLAIM_NOTES = "claim-notes"
CLAIM_BASIS = "claim-basis"
