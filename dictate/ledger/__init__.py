"""The drop folder, the ledger of visits, and the workers."""
