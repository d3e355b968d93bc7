package main

import (
	"fmt"
	"strings"
	"sync"
	"time"
)

// patience is how long a run may take before a bar is shown.
const patience = time.Second

// progress returns a function that draws a bar on stderr when a run takes
// longer than a second and a person is watching, and one that wipes it away.
func (p *program) progress() (show func(share float64), done func()) {
	if !p.Terminal {
		return nil, func() {}
	}
	var one sync.Mutex
	start, drawn := p.Now(), -1
	const width = 30
	show = func(share float64) {
		one.Lock()
		defer one.Unlock()
		n := int(share * width)
		if n == drawn || p.Now().Sub(start) < patience {
			return
		}
		drawn = n
		fmt.Fprintf(p.Stderr, "\r  %s%s %3.0f %%", strings.Repeat("━", n), strings.Repeat("·", width-n), share*100)
	}
	done = func() {
		if drawn >= 0 {
			fmt.Fprintf(p.Stderr, "\r%s\r", strings.Repeat(" ", width+10))
		}
	}
	return show, done
}
