package web

import "strings"

// asSentence makes a sentence of words.
func asSentence(text string) string {
	text = capital(strings.TrimSpace(text))
	if text == "" || strings.ContainsAny(text[len(text)-1:], ".?!…:") {
		return text
	}
	return text + "."
}
