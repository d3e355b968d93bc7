package web

import "slices"

// hunk is a stretch of two texts that were written from one: the same in both, or as each
// has it.
type hunk struct {
	same         []string
	mine, theirs []string
	changed      change // whose it is, when it is not the same
}

// change says who has changed a stretch of a text.
type change int

// Who has changed it.
const (
	nobody change = iota
	byMe
	byThem
	byBoth
)

// merge lays two texts beside the one that both were written from, line by line: where all
// three agree, and what each has between.
func merge(base, mine, theirs []string) (out []hunk) {
	inMine, inTheirs := found(base, mine), found(base, theirs)
	i, j, k := 0, 0, 0
	for {
		o := i
		for o < len(base) && (inMine[o] < 0 || inTheirs[o] < 0) {
			o++
		}
		m, t := len(mine), len(theirs)
		if o < len(base) {
			m, t = inMine[o], inTheirs[o]
		}
		out = stretched(out, base[i:o], mine[j:m], theirs[k:t])
		if o == len(base) {
			return out
		}
		out = stretched(out, base[o:o+1], mine[m:m+1], theirs[t:t+1])
		i, j, k = o+1, m+1, t+1
	}
}

// stretched adds a stretch, to the one before it where that is the same in both too.
func stretched(out []hunk, base, mine, theirs []string) []hunk {
	h := hunk{mine: mine, theirs: theirs, changed: byBoth}
	switch {
	case slices.Equal(mine, theirs):
		if len(mine) == 0 {
			return out
		}
		if last := len(out) - 1; last >= 0 && out[last].changed == nobody {
			out[last].same = append(out[last].same, mine...)
			return out
		}
		h = hunk{same: slices.Clone(mine)}
	case slices.Equal(mine, base):
		h.changed = byThem
	case slices.Equal(theirs, base):
		h.changed = byMe
	}
	return append(out, h)
}

// mostCompared bounds how many pairs of lines are compared; texts that differ in more are
// taken for different throughout.
const mostCompared = 4_000_000

// found tells for each line of a text where it stands in another, -1 for nowhere: as many
// as can be, in order.
func found(from, to []string) []int {
	at := make([]int, len(from))
	for i := range at {
		at[i] = -1
	}
	start := 0
	for start < len(from) && start < len(to) && from[start] == to[start] {
		at[start] = start
		start++
	}
	endFrom, endTo := len(from), len(to)
	for endFrom > start && endTo > start && from[endFrom-1] == to[endTo-1] {
		endFrom, endTo = endFrom-1, endTo-1
		at[endFrom] = endTo
	}
	a, b := from[start:endFrom], to[start:endTo]
	if len(a)*len(b) > mostCompared {
		return at
	}
	longest := make([][]int, len(a)+1) // common lines from i and j on
	longest[len(a)] = make([]int, len(b)+1)
	for i := len(a) - 1; i >= 0; i-- {
		longest[i] = make([]int, len(b)+1)
		for j := len(b) - 1; j >= 0; j-- {
			longest[i][j] = max(longest[i+1][j], longest[i][j+1])
			if a[i] == b[j] {
				longest[i][j] = longest[i+1][j+1] + 1
			}
		}
	}
	for i, j := 0, 0; i < len(a) && j < len(b); {
		switch {
		case a[i] == b[j]:
			at[start+i] = start + j
			i, j = i+1, j+1
		case longest[i+1][j] >= longest[i][j+1]:
			i++
		default:
			j++
		}
	}
	return at
}
