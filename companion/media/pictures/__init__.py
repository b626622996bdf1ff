"""Pictures: what the words say, drawn. Placement says what stands where; views draw it, and descriptions tell it in words."""
