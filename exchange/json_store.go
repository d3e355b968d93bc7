package exchange

// Imported is what an import did, or would do in a dry run.
type Imported struct {
	Gym         string       `json:"gym"`
	DryRun      bool         `json:"dry_run"`
	Steps       []ImportStep `json:"steps"`
	Diagnostics []Diagnostic `json:"diagnostics"`
}

// ImportStep is one thing that was brought in. Kind is person, sheet, kit, settings or
// score; done is new, changed or as it was.
type ImportStep struct {
	Kind string `json:"kind"`
	Name string `json:"name"`
	Done string `json:"done"`
}

// Exported is a gym that was written as files, or as one archive.
type Exported struct {
	Gym   string   `json:"gym"`
	Files []string `json:"files"`
}

// Examined is what a look at a database found.
type Examined struct {
	Database string        `json:"database"` // sqlite or postgres
	Gyms     []ExaminedGym `json:"gyms"`
	Found    []string      `json:"found"` // damage; empty when there is none
}

// ExaminedGym is one gym with how much there is of it.
type ExaminedGym struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	People int    `json:"people"`
	Sheets int    `json:"sheets"`
	Scores int    `json:"scores"`
}

// Serving is where a server answers, and the links by which people come in, by role.
type Serving struct {
	Address string            `json:"address"`
	Links   map[string]string `json:"links"`
}

// Crowd is how much was made to measure with.
type Crowd struct {
	Gyms    int `json:"gyms"`
	Members int `json:"members"` // of each
	Scores  int `json:"scores"`  // in all
}
