"""Every id of the Claim page, in one place: a callback and a layout that name the same thing name it once."""

CLAIM_TYPED = "claim-typed"  # {"type": this, "ball": "first" or "second"}: where its speed is typed
CLAIM_SAME = "claim-same"  # where the speed of both is typed

# What becomes of it.
CLAIM_EMPTY = "claim-empty"
CLAIM_BODY = "claim-body"
CLAIM_SENTENCE = "claim-sentence"
CLAIM_READOUTS = "claim-readouts"
CLAIM_NOTES = "claim-notes"
