"""Media makes what is seen and heard beside the words: pictures of exercises, and voice notes that are a clock."""
