"""Push and pull in one request: shape and authority are judged here, storing is the record’s."""
