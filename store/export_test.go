package store

// Columns are the columns that an archive has of each table.
func Columns() map[string][]string { return columns }
