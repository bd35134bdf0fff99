"""The Claim page: what becomes of "this ball loads the arm more than that one", readout by readout."""
