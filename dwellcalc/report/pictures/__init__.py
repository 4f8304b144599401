"""Pictures of an assessment: each a drawing with its numbers beside it."""
