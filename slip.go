package roomful

// Slips counts the letters to add, drop, change or exchange with their neighbour
// to turn one word into another (optimal string alignment). Every did-you-mean
// rests on it.
func Slips(from, to string) int {
	a, b := []rune(from), []rune(to)
	// Names are short: three rows of the table that need no memory of their own.
	var room [3][64]int
	before, last, row := room[0][:], room[1][:], room[2][:]
	if len(b) >= len(room[0]) {
		before, last, row = make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	}
	for j := range len(b) + 1 {
		last[j] = j
	}
	for i := range a {
		row[0] = i + 1
		for j := range b {
			cost := 1
			if a[i] == b[j] {
				cost = 0
			}
			row[j+1] = min(last[j+1]+1, row[j]+1, last[j]+cost)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}
