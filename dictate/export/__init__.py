"""Record -> files for the billing system, the customer, the refrigerant log and the claim."""
