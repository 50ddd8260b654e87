"""The plain types that the stages share: transcript, mentions, record. Stages share types, not functions."""
