// Package vocab holds the words of a sheet that reading and printing share:
// units, adjectives, phrases, and those that begin a head or a format. It also
// says what each movement may be counted in.
package vocab
