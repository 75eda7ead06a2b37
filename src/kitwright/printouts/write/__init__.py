"""Writers: a drawing or a document in the words of a file format."""
