"""The printouts themselves: pictures of patterns, folds and sheets, and the documents made of them."""
