package web

import "strings"

// deviceName makes words of what a browser calls itself; what it does not know it gives as
// it is.
func deviceName(agent string) string {
	find := func(names [][2]string) string {
		for _, n := range names {
			if strings.Contains(agent, n[0]) {
				return n[1]
			}
		}
		return ""
	}
	on := find([][2]string{{"iPhone", "an iPhone"}, {"iPad", "an iPad"}, {"Android", "Android"}, {"CrOS", "ChromeOS"}, {"Windows", "Windows"}, {"Macintosh", "a Mac"}, {"Linux", "Linux"}})
	by := find([][2]string{{"Firefox", "Firefox"}, {"Edg", "Edge"}, {"OPR", "Opera"}, {"SamsungBrowser", "Samsung’s browser"}, {"Chrom", "Chrome"}, {"Safari", "Safari"}})
	switch {
	case agent == "":
		return "A device without a name"
	case on != "" && by != "":
		return by + " on " + on
	}
	return agent
}
