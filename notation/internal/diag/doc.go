// Package diag gathers what is to be said about a sheet: where, how grave, and
// what to do next, with a did-you-mean for names that are nearly right.
package diag
