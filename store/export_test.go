package store

// Columns are the columns that an archive has of each table.
func Columns() map[string][]string { return columns }

// Encode and Decode write and read the form in which nouns are kept.
var (
	Encode = encode
	Decode = decode
)
