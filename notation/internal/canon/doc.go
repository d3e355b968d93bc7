// Package canon writes a session in the one canonical form of a sheet. It shares
// the vocabulary with the reader and never calls it.
package canon
