package page

// Me is somebody's own page.
type Me struct {
	Name, Role string
	Passkeys   bool // this device could have one
	Password   bool // they may have one
}
