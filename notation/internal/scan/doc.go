// Package scan turns the text of a sheet into lines of tokens, with curly
// quotes, crosses, fractions, bullets and the like made plain, and walks over
// them by phrases. It knows nothing of what the words mean.
package scan
