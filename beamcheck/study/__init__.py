"""From a survey to the whole chain: take-down, beam, posts and what they come down on, as one tree."""
